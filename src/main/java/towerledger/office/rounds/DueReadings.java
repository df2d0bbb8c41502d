package towerledger.office.rounds;

import java.time.Clock;
import java.time.Duration;
import java.time.Instant;
import java.time.OffsetDateTime;
import java.util.ArrayList;
import java.util.Collections;
import java.util.List;
import java.util.Optional;
import org.springframework.jdbc.core.simple.JdbcClient;
import org.springframework.stereotype.Component;
import org.springframework.transaction.annotation.Transactional;
import towerledger.account.Viewer;
import towerledger.site.LastReadings;
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

  /**
   * Visible systems with a makeup meter in service, longest unread first. A system with several was
   * read when the last of them was: that meter alone stands for it.
   */
  @Transactional(readOnly = true)
  public List<Stop> list(Viewer viewer, String search, int offset, int limit) {
    var scope = access.scope(viewer, "y.customer_id", "y.site_id");
    List<Object> parameters = new ArrayList<>(scope.parameters());
    String found = "";
    if (!search.isBlank()) {
      found =
          "AND (LOWER(y.code) LIKE ? OR LOWER(y.name) LIKE ? OR LOWER(s.name) LIKE ?"
              + " OR LOWER(c.name) LIKE ?)";
      parameters.addAll(
          Collections.nCopies(4, "%" + search.strip().toLowerCase(java.util.Locale.ROOT) + "%"));
    }
    parameters.addAll(List.of(offset, limit));
    Instant since = clock.instant().minus(USUAL);
    return jdbc.sql(
            """
            SELECT y.code, y.name, s.name AS site_name, s.time_zone, c.name AS customer_name,
              m.last_read_at
            FROM site_meter m
            JOIN site_system y ON y.id = m.system_id
            JOIN site_site s ON s.id = y.site_id
            JOIN account_customer c ON c.id = y.customer_id
            WHERE m.role = 'makeup' AND m.removed_at IS NULL AND %s %s
              AND NOT EXISTS (SELECT 1 FROM site_meter o
                WHERE o.system_id = m.system_id AND o.role = 'makeup' AND o.removed_at IS NULL
                  AND (o.last_read_at > m.last_read_at
                    OR o.last_read_at = m.last_read_at AND o.id > m.id))
            ORDER BY m.role, m.last_read_at, m.id
            OFFSET ? ROWS FETCH NEXT ? ROWS ONLY\
            """
                .formatted(scope.sql(), found))
        .params(parameters)
        .query(
            (row, number) -> {
              Optional<Instant> lastRead =
                  Optional.of(row.getObject("last_read_at", OffsetDateTime.class).toInstant())
                      .filter(LastReadings.NEVER::isBefore);
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
