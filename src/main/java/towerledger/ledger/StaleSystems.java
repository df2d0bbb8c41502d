package towerledger.ledger;

import java.sql.ResultSet;
import java.sql.SQLException;
import java.time.Clock;
import java.time.LocalDate;
import java.time.OffsetDateTime;
import java.time.YearMonth;
import java.time.ZoneOffset;
import java.util.Collection;
import java.util.List;
import java.util.Objects;
import org.jspecify.annotations.Nullable;
import org.springframework.context.event.EventListener;
import org.springframework.jdbc.core.simple.JdbcClient;
import org.springframework.stereotype.Component;
import org.springframework.transaction.annotation.Propagation;
import org.springframework.transaction.annotation.Transactional;
import towerledger.site.FactsChanged;

/**
 * Remembers which systems have months to reckon anew. Marks are written in the transaction that
 * changed the facts and taken away in the one that wrote the months, so a crash between the two
 * loses neither.
 */
@Component
class StaleSystems {

  private final JdbcClient jdbc;
  private final Clock clock;

  StaleSystems(JdbcClient jdbc, Clock clock) {
    this.jdbc = jdbc;
    this.clock = clock;
  }

  /**
   * A system with months to reckon.
   *
   * @param systemId the system
   * @param siteId its site
   * @param first first month touched; null when there is no first
   * @param reason why
   */
  record Stale(long systemId, long siteId, @Nullable YearMonth first, String reason) {}

  @EventListener
  @Transactional(propagation = Propagation.REQUIRED)
  public void on(FactsChanged news) {
    for (FactsChanged.Touched touched : news.touched()) {
      mark(touched.systemId(), touched.first(), touched.last(), news.reason());
    }
  }

  /** Marks months of a system; widens a mark that is there already. */
  void mark(long systemId, @Nullable YearMonth first, @Nullable YearMonth last, String reason) {
    int widened =
        jdbc.sql(
                """
                UPDATE ledger_stale SET
                  first_month = CASE WHEN first_month IS NULL OR CAST(:first AS DATE) IS NULL
                    THEN NULL ELSE LEAST(first_month, CAST(:first AS DATE)) END,
                  last_month = CASE WHEN last_month IS NULL OR CAST(:last AS DATE) IS NULL
                    THEN NULL ELSE GREATEST(last_month, CAST(:last AS DATE)) END,
                  reason = :reason
                WHERE system_id = :system""")
            .param("first", day(first))
            .param("last", day(last))
            .param("reason", shortened(reason))
            .param("system", systemId)
            .update();
    if (widened == 0) {
      jdbc.sql(
              """
              INSERT INTO ledger_stale (system_id, site_id, first_month, last_month, reason,
                marked_at)
              SELECT id, site_id, CAST(:first AS DATE), CAST(:last AS DATE), :reason, :at
              FROM site_system WHERE id = :system""")
          .param("first", day(first))
          .param("last", day(last))
          .param("reason", shortened(reason))
          .param("at", OffsetDateTime.ofInstant(clock.instant(), ZoneOffset.UTC))
          .param("system", systemId)
          .update();
    }
  }

  /**
   * Takes one site's marks for this transaction; another node skips them until it ends.
   *
   * @param except sites to leave alone
   * @return the marks, empty when nothing waits or others are at it
   */
  List<Stale> claimSite(Collection<Long> except) {
    List<Long> site =
        jdbc.sql(
                """
                SELECT site_id FROM ledger_stale WHERE site_id NOT IN (:except)
                ORDER BY marked_at, system_id LIMIT 1
                FOR UPDATE SKIP LOCKED""")
            .param("except", none(except))
            .query(Long.class)
            .list();
    if (site.isEmpty()) {
      return List.of();
    }
    return jdbc.sql(
            """
            SELECT system_id, site_id, first_month, reason FROM ledger_stale
            WHERE site_id = :site ORDER BY system_id FOR UPDATE SKIP LOCKED""")
        .param("site", Objects.requireNonNull(site.get(0)))
        .query(StaleSystems::stale)
        .list();
  }

  /** SQL knows no empty list; no site has this identity. */
  private static Collection<Long> none(Collection<Long> sites) {
    return sites.isEmpty() ? List.of(-1L) : sites;
  }

  void settle(List<Stale> marks) {
    for (Stale mark : marks) {
      jdbc.sql("DELETE FROM ledger_stale WHERE system_id = :system")
          .param("system", mark.systemId())
          .update();
    }
  }

  long count() {
    return jdbc.sql("SELECT COUNT(*) FROM ledger_stale").query(Long.class).single();
  }

  /** Marks of other sites than these. */
  long countOutside(Collection<Long> sites) {
    return jdbc.sql("SELECT COUNT(*) FROM ledger_stale WHERE site_id NOT IN (:sites)")
        .param("sites", none(sites))
        .query(Long.class)
        .single();
  }

  private static Stale stale(ResultSet row, int number) throws SQLException {
    LocalDate first = row.getObject("first_month", LocalDate.class);
    return new Stale(
        row.getLong("system_id"),
        row.getLong("site_id"),
        first == null ? null : YearMonth.from(first),
        row.getString("reason"));
  }

  private static @Nullable LocalDate day(@Nullable YearMonth month) {
    return month == null ? null : month.atDay(1);
  }

  private static String shortened(String reason) {
    return reason.length() <= 500 ? reason : reason.substring(0, 500);
  }
}
