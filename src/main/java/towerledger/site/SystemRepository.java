package towerledger.site;

import java.util.Collection;
import java.util.List;
import java.util.Optional;
import org.springframework.data.jpa.repository.JpaRepository;
import org.springframework.data.jpa.repository.NativeQuery;
import org.springframework.data.jpa.repository.Query;

interface SystemRepository extends JpaRepository<CoolingSystem, Long> {

  Optional<CoolingSystem> findByCode(String code);

  @Query(
      """
      SELECT new towerledger.site.TowerAtSite(y, s, t)
      FROM CoolingSystem y JOIN Site s ON s.id = y.siteId
      LEFT JOIN Tower t ON t.systemId = y.id
      WHERE y.code = :code ORDER BY t.code""")
  List<TowerAtSite> findAtSite(String code);

  List<CoolingSystem> findBySiteIdOrderByCode(long siteId);

  List<CoolingSystem> findBySiteIdInOrderByCode(Collection<Long> siteIds);

  @NativeQuery(
      """
      SELECT y.* FROM site_system y JOIN site_site s ON s.id = y.site_id
      WHERE s.water_schedule = :schedule OR s.sewer_schedule = :schedule ORDER BY y.code""")
  List<CoolingSystem> findBilledOn(String schedule);
}
