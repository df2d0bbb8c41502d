package towerledger.site;

import java.util.Collection;
import java.util.List;
import java.util.Optional;
import org.springframework.data.jpa.repository.JpaRepository;

interface TowerRepository extends JpaRepository<Tower, Long> {

  Optional<Tower> findByCode(String code);

  List<Tower> findBySystemIdInOrderByCode(Collection<Long> systemIds);

  List<Tower> findBySystemIdOrderByCode(long systemId);

  /**
   * Those of some systems. A query for a list is translated anew each time, one for a key is not.
   */
  default List<Tower> listOf(Collection<Long> systemIds) {
    return systemIds.size() == 1
        ? findBySystemIdOrderByCode(systemIds.iterator().next())
        : findBySystemIdInOrderByCode(systemIds);
  }
}
