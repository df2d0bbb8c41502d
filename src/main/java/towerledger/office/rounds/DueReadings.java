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
            SELECT y.code, y.name, s.name AS site_name, s.time_zone, c.name AS customer_name,
              MAX(t.last_read) AS last_read
            FROM site_system y
            JOIN site_site s ON s.id = y.site_id
            JOIN account_customer c ON c.id = y.customer_id
            JOIN site_meter m ON m.system_id = y.id AND m.removed_at IS NULL AND m.role = 'makeup'
            LEFT JOIN (SELECT r.meter_id, MAX(r.read_at) AS last_read
              FROM meter_register_reading r GROUP BY r.meter_id) t ON t.meter_id = m.id
            WHERE %s
              AND (LOWER(y.code) LIKE ? OR LOWER(y.name) LIKE ? OR LOWER(s.name) LIKE ?
                OR LOWER(c.name) LIKE ?)
            GROUP BY y.code, y.name, s.name, s.time_zone, c.name
            ORDER BY CASE WHEN MAX(t.last_read) IS NULL THEN 0 ELSE 1 END, MAX(t.last_read), y.code
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
