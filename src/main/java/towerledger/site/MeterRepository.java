package towerledger.site;

import java.util.Collection;
import java.util.List;
import java.util.Optional;
import org.springframework.data.jpa.repository.JpaRepository;

interface MeterRepository extends JpaRepository<Meter, Long> {

  Optional<Meter> findByCode(String code);

  List<Meter> findBySystemIdInOrderByCode(Collection<Long> systemIds);

  List<Meter> findBySystemIdOrderByCode(long systemId);

  /**
   * Those of some systems. A query for a list is translated anew each time, one for a key is not.
   */
  default List<Meter> listOf(Collection<Long> systemIds) {
    return systemIds.size() == 1
        ? findBySystemIdOrderByCode(systemIds.iterator().next())
        : findBySystemIdInOrderByCode(systemIds);
  }

  List<Meter> findBySiteIdAndSystemIdIsNullOrderByCode(long siteId);

  List<Meter> findBySiteIdInAndSystemIdIsNullOrderByCode(Collection<Long> siteIds);
}
