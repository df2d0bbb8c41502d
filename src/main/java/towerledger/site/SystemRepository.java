package towerledger.site;

import java.util.List;
import java.util.Optional;
import org.springframework.data.jpa.repository.JpaRepository;

interface SystemRepository extends JpaRepository<CoolingSystem, Long> {

  Optional<CoolingSystem> findByCode(String code);

  List<CoolingSystem> findBySiteIdOrderByCode(long siteId);
}
