package towerledger.site;

import java.util.List;
import java.util.Optional;
import org.springframework.jdbc.core.simple.JdbcClient;
import org.springframework.stereotype.Service;
import org.springframework.transaction.annotation.Transactional;
import towerledger.account.Role;
import towerledger.account.Viewer;

/**
 * The one place that knows whose thing a code names. Office people see everything, technicians the
 * sites they are assigned to, customers their own. What a viewer may not see is not there: an empty
 * answer, the same as for a code that does not exist.
 */
@Service
@Transactional(readOnly = true)
public class SiteAccess {

  private final SiteRepository sites;
  private final MeterRepository meters;
  private final Sites lookup;
  private final SystemPlaces places;
  private final JdbcClient jdbc;

  SiteAccess(
      SiteRepository sites,
      MeterRepository meters,
      Sites lookup,
      SystemPlaces places,
      JdbcClient jdbc) {
    this.sites = sites;
    this.meters = meters;
    this.lookup = lookup;
    this.places = places;
    this.jdbc = jdbc;
  }

  /** The site with a code, if this viewer may see it. */
  public Optional<Site> findSite(Viewer viewer, String code) {
    return sites.findByCode(code).filter(site -> maySee(viewer, site.customerId(), site.id()));
  }

  /** The system with its own or a tower's code, if this viewer may see it. */
  public Optional<CoolingSystem> findSystem(Viewer viewer, String code) {
    return lookup
        .findSystem(code)
        .filter(system -> maySee(viewer, system.customerId(), system.siteId()));
  }

  /** The same with its site and towers. */
  public Optional<SystemAtSite> findSystemAtSite(Viewer viewer, String code) {
    return places
        .find(code)
        .filter(found -> maySee(viewer, found.system().customerId(), found.system().siteId()));
  }

  /** The meter with a code, if this viewer may see it. */
  public Optional<Meter> findMeter(Viewer viewer, String code) {
    return meters
        .findByCode(code)
        .filter(
            meter ->
                sites
                    .findById(meter.siteId())
                    .filter(site -> maySee(viewer, site.customerId(), site.id()))
                    .isPresent());
  }

  /** Every site this viewer may see, by code. */
  public List<Site> listSites(Viewer viewer) {
    return switch (viewer.role()) {
      case OFFICE -> sites.findAllByOrderByCode();
      case CUSTOMER -> sites.findByCustomerIdOrderByCode(customerOf(viewer));
      case TECHNICIAN -> sites.findAssigned(viewer.personId());
    };
  }

  /**
   * The visible systems as a condition for SQL over a table that carries customer and system: bulk
   * queries add it, so that nothing else decides who sees what.
   *
   * @param customerColumn qualified name of the customer's column
   * @param siteColumn qualified name of the site's column
   */
  public Scope scope(Viewer viewer, String customerColumn, String siteColumn) {
    return switch (viewer.role()) {
      case OFFICE -> new Scope("1 = 1", List.of());
      case CUSTOMER -> new Scope(customerColumn + " = ?", List.of(customerOf(viewer)));
      case TECHNICIAN ->
          new Scope(
              siteColumn + " IN (SELECT site_id FROM site_assignment WHERE person_id = ?)",
              List.of(viewer.personId()));
    };
  }

  /**
   * A condition for SQL.
   *
   * @param sql text with {@code ?} for each parameter
   * @param parameters values for them, in order
   */
  public record Scope(String sql, List<Object> parameters) {}

  private boolean maySee(Viewer viewer, long customerId, long siteId) {
    return switch (viewer.role()) {
      case OFFICE -> true;
      case CUSTOMER -> customerOf(viewer) == customerId;
      case TECHNICIAN ->
          jdbc.sql("SELECT COUNT(*) FROM site_assignment WHERE person_id = ? AND site_id = ?")
                  .param(viewer.personId())
                  .param(siteId)
                  .query(Long.class)
                  .single()
              > 0;
    };
  }

  private static long customerOf(Viewer viewer) {
    Long customerId = viewer.customerId();
    if (viewer.role() != Role.CUSTOMER || customerId == null) {
      throw new IllegalStateException("viewer %s has no customer".formatted(viewer.email()));
    }
    return customerId;
  }
}
