package towerledger.office.rounds;

import java.time.Clock;
import java.time.Duration;
import java.time.Instant;
import java.time.OffsetDateTime;
import java.util.ArrayList;
import java.util.List;
import java.util.Optional;
import org.springframework.jdbc.core.simple.JdbcClient;
import org.springframework.stereotype.Component;
import org.springframework.transaction.annotation.Transactional;
import towerledger.account.Viewer;
import towerledger.site.SiteAccess;

/** Which systems are to be read, those longest unread first; sought and paged by the database. */
@Component
class DueReadings {

  /** A makeup meter is read once a week, common practice, no source. */
  static final Duration USUAL = Duration.ofDays(7);

  private final JdbcClient jdbc;
  private final SiteAccess access;
  private final Clock clock;

  DueReadings(JdbcClient jdbc, SiteAccess access, Clock clock) {
    this.jdbc = jdbc;
    this.access = access;
    this.clock = clock;
  }

  /**
   * A system on a round.
   *
   * @param lastRead when its makeup was last read; empty when never
   * @param due whether a week has gone by since
   */
  record Stop(
      String system,
      String name,
      String site,
      String customer,
      String zone,
      Optional<Instant> lastRead,
      boolean due) {}

  /** Visible systems with a meter in service, longest unread first. */
  @Transactional(readOnly = true)
  public List<Stop> list(Viewer viewer, String search, int offset, int limit) {
    var scope = access.scope(viewer, "y.customer_id", "y.site_id");
    List<Object> parameters = new ArrayList<>(scope.parameters());
    String pattern = "%" + search.strip().toLowerCase(java.util.Locale.ROOT) + "%";
    parameters.addAll(List.of(pattern, pattern, pattern, pattern, offset, limit));
    Instant since = clock.instant().minus(USUAL);
    return jdbc.sql(
            """
            SELECT d.code, d.name, s.name AS site_name, s.time_zone, c.name AS customer_name,
              d.last_read
            FROM (SELECT y.code, y.name, y.site_id, y.customer_id, MAX(
                (SELECT r.read_at FROM meter_register_reading r WHERE r.meter_id = m.id
                  ORDER BY r.meter_id DESC, r.read_at DESC FETCH FIRST 1 ROW ONLY)) AS last_read
              FROM site_meter m
              JOIN site_system y ON y.id = m.system_id
              WHERE m.removed_at IS NULL AND m.role = 'makeup' AND %s
              GROUP BY y.code, y.name, y.site_id, y.customer_id) d
            JOIN site_site s ON s.id = d.site_id
            JOIN account_customer c ON c.id = d.customer_id
            WHERE LOWER(d.code) LIKE ? OR LOWER(d.name) LIKE ? OR LOWER(s.name) LIKE ?
              OR LOWER(c.name) LIKE ?
            ORDER BY CASE WHEN d.last_read IS NULL THEN 0 ELSE 1 END, d.last_read, d.code
            OFFSET ? ROWS FETCH NEXT ? ROWS ONLY\
            """
                .formatted(scope.sql()))
        .params(parameters)
        .query(
            (row, number) -> {
              OffsetDateTime last = row.getObject("last_read", OffsetDateTime.class);
              Optional<Instant> lastRead =
                  last == null ? Optional.empty() : Optional.of(last.toInstant());
              return new Stop(
                  row.getString("code"),
                  row.getString("name"),
                  row.getString("site_name"),
                  row.getString("customer_name"),
                  row.getString("time_zone"),
                  lastRead,
                  lastRead.isEmpty() || lastRead.get().isBefore(since));
            })
        .list();
  }
}
