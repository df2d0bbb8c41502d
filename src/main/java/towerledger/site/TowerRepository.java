package towerledger.site;

import java.util.Collection;
import java.util.List;
import java.util.Optional;
import org.springframework.data.jpa.repository.JpaRepository;

interface TowerRepository extends JpaRepository<Tower, Long> {

  Optional<Tower> findByCode(String code);

  List<Tower> findBySystemIdInOrderByCode(Collection<Long> systemIds);
}
