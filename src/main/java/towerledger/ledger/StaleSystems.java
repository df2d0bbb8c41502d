package towerledger.ledger;

import static java.util.stream.Collectors.groupingBy;
import static java.util.stream.Collectors.toList;
import static java.util.stream.Collectors.toSet;

import java.sql.ResultSet;
import java.sql.SQLException;
import java.time.Clock;
import java.time.LocalDate;
import java.time.OffsetDateTime;
import java.time.YearMonth;
import java.time.ZoneOffset;
import java.util.ArrayList;
import java.util.Collection;
import java.util.List;
import java.util.Set;
import java.util.TreeMap;
import java.util.stream.LongStream;
import java.util.stream.Stream;
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

  /** Sites reckoned in one transaction at most, and systems: all their facts are held at once. */
  private static final int SITES_TOGETHER = 8;

  private static final int SYSTEMS_TOGETHER = 12;

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
    return takesTurn(site) ? marks(List.of(site)) : List.of();
  }

  /**
   * Takes a site for this transaction and with it some more of its slot that wait for the same: the
   * same months for the same reason. What is asked of the database for each piece of work is then
   * asked once for all of them.
   *
   * @param except sites to be left where they are
   * @return their marks, empty when others are at the slot or the site no longer waits
   */
  List<Stale> claimTogether(long site, Collection<Long> except) {
    if (!takesTurn(site)) {
      return List.of();
    }
    List<Long> near =
        LongStream.range(0, SITES_TOGETHER).mapToObj(i -> site + i * SLOTS).collect(toList());
    near.removeAll(except);
    var bySite = marks(near).stream().collect(groupingBy(Stale::siteId, TreeMap::new, toList()));
    List<Stale> own = bySite.getOrDefault(site, List.of());
    var together = new ArrayList<>(own);
    var systems = own.stream().map(Stale::systemId).collect(toSet());
    for (List<Stale> others : bySite.tailMap(site + 1).values()) {
      if (!own.isEmpty() && WaitsFor.of(others).equals(WaitsFor.of(own))) {
        others.forEach(mark -> systems.add(mark.systemId()));
        if (systems.size() > SYSTEMS_TOGETHER) {
          break;
        }
        together.addAll(others);
      }
    }
    return together;
  }

  /**
   * What all marks of a site come to.
   *
   * @param first first month touched; null when there is no first
   * @param reason why, by the oldest
   */
  record WaitsFor(@Nullable YearMonth first, String reason) {

    static WaitsFor of(List<Stale> marks) {
      boolean all = marks.stream().anyMatch(mark -> mark.first() == null);
      return new WaitsFor(
          all
              ? null
              : marks.stream()
                  .flatMap(mark -> Stream.ofNullable(mark.first()))
                  .min(YearMonth::compareTo)
                  .orElse(null),
          marks.get(0).reason());
    }
  }

  private List<Stale> marks(Collection<Long> sites) {
    return jdbc.sql(
            """
            SELECT id, system_id, site_id, first_month, reason FROM ledger_stale
            WHERE site_id IN (:sites) ORDER BY id""")
        .param("sites", sites)
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
