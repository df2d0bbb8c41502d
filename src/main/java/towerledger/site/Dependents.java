package towerledger.site;

import java.time.ZoneId;
import java.util.List;
import java.util.OptionalDouble;
import org.springframework.jdbc.core.simple.JdbcClient;
import org.springframework.stereotype.Component;
import org.springframework.transaction.annotation.Transactional;

/** Which systems depend on a thing that sites share: a weather station, a site's service meter. */
@Component
@Transactional(readOnly = true)
public class Dependents {

  private static final String SELECT =
      """
      SELECT y.id, s.time_zone FROM site_system y JOIN site_site s ON s.id = y.site_id
      WHERE\s""";

  private final JdbcClient jdbc;

  Dependents(JdbcClient jdbc) {
    this.jdbc = jdbc;
  }

  /**
   * A system and the zone of its calendar.
   *
   * @param systemId the system
   * @param zone zone of its site
   */
  public record Placed(long systemId, ZoneId zone) {}

  /** Systems at sites that take their hours from the station. */
  public List<Placed> onStation(String station) {
    return list("s.station = :it", station);
  }

  /** Systems at the site. */
  public List<Placed> atSite(long siteId) {
    return list("s.id = :it", siteId);
  }

  /** Zones of the sites that take their hours from the station, each once. */
  public List<ZoneId> zonesOfStation(String station) {
    return jdbc
        .sql("SELECT DISTINCT time_zone FROM site_site WHERE station = ?")
        .param(station)
        .query(String.class)
        .list()
        .stream()
        .map(ZoneId::of)
        .toList();
  }

  /**
   * Elevation of the sites that take their hours from the station, their mean in metres; empty when
   * none of them knows it.
   */
  public OptionalDouble elevationAtStation(String station) {
    return jdbc
        .sql("SELECT elevation_m FROM site_site WHERE station = ? AND elevation_m IS NOT NULL")
        .param(station)
        .query(Double.class)
        .list()
        .stream()
        .mapToDouble(Double::doubleValue)
        .average();
  }

  private List<Placed> list(String condition, Object value) {
    return jdbc.sql(SELECT + condition + " ORDER BY y.id")
        .param("it", value)
        .query((row, n) -> new Placed(row.getLong(1), ZoneId.of(row.getString(2))))
        .list();
  }
}
