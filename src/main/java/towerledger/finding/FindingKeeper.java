package towerledger.finding;

import java.time.Clock;
import java.time.Instant;
import java.time.LocalDate;
import java.time.OffsetDateTime;
import java.time.YearMonth;
import java.time.ZoneId;
import java.util.ArrayList;
import java.util.Arrays;
import java.util.Collection;
import java.util.List;
import java.util.Map;
import java.util.Optional;
import java.util.Set;
import java.util.stream.Collectors;
import org.jspecify.annotations.Nullable;
import org.springframework.context.event.EventListener;
import org.springframework.jdbc.core.simple.JdbcClient;
import org.springframework.stereotype.Component;
import towerledger.balance.Cause;
import towerledger.balance.facts.Visit;
import towerledger.ledger.Ledger;
import towerledger.ledger.LedgerEntry;
import towerledger.ledger.MonthWorking;
import towerledger.ledger.MonthsReckoned;
import towerledger.logsheet.LogRecords;
import towerledger.quantity.Span;
import towerledger.site.CoolingSystem;
import towerledger.site.Site;
import towerledger.site.Sites;

/**
 * Keeps the findings in step with the ledger: opens one for each new episode of flagged months,
 * refreshes its figures while it lasts, takes a logged repair for work done, and works out what the
 * months since have saved. Runs inside the transaction that wrote the months.
 */
@Component
class FindingKeeper {

  /** Episodes further back than this are history that nobody goes to look at. */
  private static final int MONTHS_WATCHED = 36;

  /** So many sound months in a row, and what was not repaired is no longer seen. */
  private static final int SOUND_MONTHS_TO_END = 2;

  private final JdbcClient jdbc;
  private final Ledger ledger;
  private final Sites sites;
  private final LogRecords log;
  private final FindingRows rows;
  private final Clock clock;

  FindingKeeper(
      JdbcClient jdbc, Ledger ledger, Sites sites, LogRecords log, FindingRows rows, Clock clock) {
    this.jdbc = jdbc;
    this.ledger = ledger;
    this.sites = sites;
    this.log = log;
    this.rows = rows;
    this.clock = clock;
  }

  /** A finding as kept, as far as it matters here. */
  record Kept(
      long id,
      long systemId,
      FindingStatus status,
      Set<Cause> causes,
      YearMonth first,
      YearMonth last,
      @Nullable Instant workedAt) {}

  @EventListener
  void follow(MonthsReckoned news) {
    Set<Long> flagged =
        Set.copyOf(
            jdbc.sql("SELECT DISTINCT system_id FROM ledger_month WHERE site_id = ? AND flagged")
                .param(news.siteId())
                .query(Long.class)
                .list());
    Map<Long, List<Kept>> kept = kept(news.siteId());
    if (flagged.isEmpty() && kept.isEmpty()) {
      return;
    }
    Site site = sites.findSite(news.siteId()).orElseThrow();
    YearMonth newest =
        YearMonth.from(
            jdbc.sql("SELECT MAX(month_start) FROM ledger_month WHERE site_id = ?")
                .param(news.siteId())
                .query(LocalDate.class)
                .single());
    for (CoolingSystem system : sites.listSystems(site)) {
      if (flagged.contains(system.id()) || kept.containsKey(system.id())) {
        follow(site, system, kept.getOrDefault(system.id(), List.of()), newest);
      }
    }
  }

  private Map<Long, List<Kept>> kept(long siteId) {
    return jdbc
        .sql(
            """
            SELECT id, system_id, status, cause_set, first_month, last_month, worked_at
            FROM finding_finding WHERE site_id = ? ORDER BY id\
            """)
        .param(siteId)
        .query(
            (row, number) -> {
              OffsetDateTime worked = row.getObject("worked_at", OffsetDateTime.class);
              return new Kept(
                  row.getLong("id"),
                  row.getLong("system_id"),
                  FindingStatus.ofCode(row.getString("status")),
                  Arrays.stream(row.getString("cause_set").split(";"))
                      .map(Cause::ofCode)
                      .collect(Collectors.toSet()),
                  YearMonth.from(row.getObject("first_month", LocalDate.class)),
                  YearMonth.from(row.getObject("last_month", LocalDate.class)),
                  worked == null ? null : worked.toInstant());
            })
        .list()
        .stream()
        .collect(Collectors.groupingBy(Kept::systemId));
  }

  private void follow(Site site, CoolingSystem system, List<Kept> kept, YearMonth newest) {
    List<LedgerEntry> standing = ledger.list(system, newest.minusMonths(MONTHS_WATCHED), newest);
    List<Kept> left = new ArrayList<>(kept);
    for (Episode episode : Episode.of(standing)) {
      Optional<Kept> match = left.stream().filter(k -> isOf(k, episode)).findFirst();
      match.ifPresent(left::remove);
      keep(site, system, episode, standing, match);
    }
    for (Kept gone : left) {
      if (gone.status().awaitsWork() && !standing.isEmpty()) {
        rows.setStatus(gone.id(), FindingStatus.ENDED);
        rows.addStep(gone.id(), "ledger", "withdrawn", "");
      }
    }
  }

  private static boolean isOf(Kept kept, Episode episode) {
    return !kept.first().isAfter(episode.last().plusMonths(1))
        && !kept.last().isBefore(episode.first().minusMonths(1))
        && Episode.overlap(kept.causes(), episode.causes());
  }

  private void keep(
      Site site,
      CoolingSystem system,
      Episode episode,
      List<LedgerEntry> standing,
      Optional<Kept> match) {
    ZoneId zone = site.details().zone();
    LedgerEntry newest = episode.newest();
    Optional<MonthWorking> working = ledger.findWorking(system, newest.month(), newest.revision());
    Instant workedAt = match.map(Kept::workedAt).orElse(null);
    boolean byLog = workedAt == null;
    if (workedAt == null) {
      workedAt = repair(system, episode, working, zone).orElse(null);
    }
    Optional<Saving> saving =
        workedAt == null
            ? Optional.empty()
            : Saving.since(episode, standing, YearMonth.from(workedAt.atZone(zone)));
    FindingStatus status = status(match, workedAt, saving, episode, standing);
    long id =
        match
            .map(
                known -> {
                  rows.refresh(known.id(), status, episode, working, saving, newest);
                  return known.id();
                })
            .orElseGet(() -> rows.open(site, system, status, episode, working, saving, newest));
    if (match.isEmpty()) {
      rows.addStep(id, "ledger", "opened", "");
    }
    if (workedAt != null && byLog) {
      rows.setWorked(id, workedAt);
      rows.addStep(id, "ledger", "repair-logged", "");
    }
    boolean changed = match.isEmpty() || match.get().status() != status;
    if (changed && !status.awaitsWork() && status != FindingStatus.WORKED) {
      rows.addStep(id, "ledger", status.code(), "");
    } else if (match.isPresent() && changed && status == FindingStatus.OPEN) {
      rows.addStep(id, "ledger", "seen-again", "");
    }
  }

  private static FindingStatus status(
      Optional<Kept> match,
      @Nullable Instant workedAt,
      Optional<Saving> saving,
      Episode episode,
      List<LedgerEntry> standing) {
    if (workedAt != null) {
      return saving.map(Saving::status).orElse(FindingStatus.WORKED);
    }
    long sound =
        standing.stream()
            .filter(row -> row.month().isAfter(episode.last()) && row.water().makeup() != null)
            .count();
    if (sound >= SOUND_MONTHS_TO_END) {
      return FindingStatus.ENDED;
    }
    return match.map(Kept::status).filter(FindingStatus::awaitsWork).orElse(FindingStatus.OPEN);
  }

  private static boolean endsWith(Episode episode, YearMonth repaired) {
    return !repaired.isBefore(episode.last()) && !repaired.isAfter(episode.last().plusMonths(1));
  }

  /**
   * The last logged repair of one of the causes, made after the fault began and after which no
   * month was flagged: one that the fault outlived is no news of a saving.
   */
  private Optional<Instant> repair(
      CoolingSystem system, Episode episode, Optional<MonthWorking> working, ZoneId zone) {
    Instant from =
        working
            .map(MonthWorking::onsetAt)
            .orElseGet(() -> episode.first().atDay(1).atStartOfDay(zone).toInstant());
    Instant until = clock.instant().plusSeconds(1);
    if (!from.isBefore(until)) {
      return Optional.empty();
    }
    Collection<Visit> visits =
        log.listVisits(List.of(system.id()), Span.of(from, until))
            .getOrDefault(system.id(), List.of());
    return visits.stream()
        .filter(visit -> Repairs.mend(visit.events(), episode.causes()))
        .map(Visit::at)
        .filter(at -> endsWith(episode, YearMonth.from(at.atZone(zone))))
        .max(Instant::compareTo);
  }
}
