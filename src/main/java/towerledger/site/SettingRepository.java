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
}
