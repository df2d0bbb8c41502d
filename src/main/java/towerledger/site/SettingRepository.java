package towerledger.site;

import java.time.LocalDate;
import java.util.Collection;
import java.util.List;
import java.util.Optional;
import org.springframework.data.jpa.repository.JpaRepository;

interface SettingRepository extends JpaRepository<DatedSetting, Long> {

  Optional<DatedSetting> findBySystemIdAndSettingAndEffectiveFrom(
      long systemId, String setting, LocalDate effectiveFrom);

  List<DatedSetting> findBySystemIdInOrderByEffectiveFrom(Collection<Long> systemIds);

  List<DatedSetting> findBySystemIdOrderByEffectiveFrom(long systemId);

  /**
   * Those of some systems. A query for a list is translated anew each time, one for a key is not.
   */
  default List<DatedSetting> listOf(Collection<Long> systemIds) {
    return systemIds.size() == 1
        ? findBySystemIdOrderByEffectiveFrom(systemIds.iterator().next())
        : findBySystemIdInOrderByEffectiveFrom(systemIds);
  }
}
