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
import java.util.Set;
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

  /** Rows of {@code ledger_turn}. */
  static final int SLOTS = 256;

  private static final int SITES_TRIED = 64;

  private final JdbcClient jdbc;
  private final Clock clock;

  StaleSystems(JdbcClient jdbc, Clock clock) {
    this.jdbc = jdbc;
    this.clock = clock;
  }

  /**
   * A system with months to reckon.
   *
   * @param id identity of the mark
   * @param systemId the system
   * @param siteId its site
   * @param first first month touched; null when there is no first
   * @param reason why
   */
  record Stale(long id, long systemId, long siteId, @Nullable YearMonth first, String reason) {}

  @EventListener
  @Transactional(propagation = Propagation.REQUIRED)
  public void on(FactsChanged news) {
    Set<FactsChanged.Touched> marked = MarkedSoFar.inThisTransaction();
    for (FactsChanged.Touched touched : news.touched()) {
      if (marked.add(touched)) {
        mark(touched.systemId(), touched.first(), touched.last(), news.reason());
      }
    }
  }

  /** Marks months of a system. */
  void mark(long systemId, @Nullable YearMonth first, @Nullable YearMonth last, String reason) {
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

  /** Some of the sites that have waited longest, but for these. */
  List<Long> listWaiting(Collection<Long> except) {
    return jdbc.sql(
            """
            SELECT site_id FROM ledger_stale WHERE site_id NOT IN (:except)
            GROUP BY site_id ORDER BY MIN(id) LIMIT :most""")
        .param("except", none(except))
        .param("most", SITES_TRIED)
        .query(Long.class)
        .list();
  }

  /**
   * Takes one site for this transaction; other nodes leave it alone until it ends.
   *
   * @return its marks, empty when others are at it or nothing waits any more
   */
  List<Stale> claim(long site) {
    if (!takesTurn(site)) {
      return List.of();
    }
    return jdbc.sql(
            """
            SELECT id, system_id, site_id, first_month, reason FROM ledger_stale
            WHERE site_id = :site ORDER BY id""")
        .param("site", site)
        .query(StaleSystems::stale)
        .list();
  }

  /** Takes a site for this transaction, unless another node is at it. */
  boolean takesTurn(long site) {
    return !jdbc.sql("SELECT slot FROM ledger_turn WHERE slot = :slot FOR UPDATE SKIP LOCKED")
        .param("slot", SlotSums.slot(site))
        .query(Long.class)
        .list()
        .isEmpty();
  }

  /** SQL knows no empty list; no site has this identity. */
  private static Collection<Long> none(Collection<Long> sites) {
    return sites.isEmpty() ? List.of(-1L) : sites;
  }

  void settle(List<Stale> marks) {
    jdbc.sql("DELETE FROM ledger_stale WHERE id IN (:ids)")
        .param("ids", marks.stream().map(Stale::id).toList())
        .update();
  }

  /** Every mark there is. */
  Set<Long> listIds() {
    return Set.copyOf(jdbc.sql("SELECT id FROM ledger_stale").query(Long.class).list());
  }

  long count() {
    return jdbc.sql("SELECT COUNT(*) FROM ledger_stale").query(Long.class).single();
  }

  /** Whether a site has marks. */
  boolean isStale(long site) {
    return jdbc.sql("SELECT COUNT(*) FROM ledger_stale WHERE site_id = :site")
            .param("site", site)
            .query(Long.class)
            .single()
        > 0;
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
        row.getLong("id"),
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
