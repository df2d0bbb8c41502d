package towerledger.site;

import java.util.List;
import java.util.Optional;
import org.springframework.data.jpa.repository.JpaRepository;
import org.springframework.data.jpa.repository.NativeQuery;

interface SiteRepository extends JpaRepository<Site, Long> {

  Optional<Site> findByCode(String code);

  List<Site> findAllByOrderByCode();

  List<Site> findByCustomerIdOrderByCode(long customerId);

  @NativeQuery(
      """
      SELECT s.* FROM site_site s JOIN site_assignment a ON a.site_id = s.id
      WHERE a.person_id = :personId ORDER BY s.code""")
  List<Site> findAssigned(long personId);
}
