package towerledger.site;

import java.util.Collection;
import java.util.List;
import java.util.Optional;
import org.springframework.data.jpa.repository.JpaRepository;

interface MeterRepository extends JpaRepository<Meter, Long> {

  Optional<Meter> findByCode(String code);

  List<Meter> findBySystemIdInOrderByCode(Collection<Long> systemIds);

  List<Meter> findBySiteIdAndSystemIdIsNullOrderByCode(long siteId);

  List<Meter> findBySiteIdInAndSystemIdIsNullOrderByCode(Collection<Long> siteIds);
}
