package towerledger.report.content;

import java.time.Instant;
import java.time.YearMonth;
import java.time.ZoneId;
import java.util.ArrayList;
import java.util.Comparator;
import java.util.HashMap;
import java.util.LinkedHashMap;
import java.util.LinkedHashSet;
import java.util.List;
import java.util.Map;
import java.util.Set;
import java.util.stream.Collectors;
import org.springframework.context.MessageSource;
import org.springframework.stereotype.Component;
import org.springframework.transaction.annotation.Transactional;
import towerledger.account.Role;
import towerledger.account.TokenScope;
import towerledger.account.UnitPreference;
import towerledger.account.Viewer;
import towerledger.balance.Cause;
import towerledger.drawing.FigureText;
import towerledger.ledger.Ledger;
import towerledger.ledger.LedgerEntry;
import towerledger.ledger.MonthReview;
import towerledger.ledger.MonthWorking;
import towerledger.ledger.Restatement;
import towerledger.ledger.ReviewFilter;
import towerledger.logsheet.VisitNote;
import towerledger.quantity.CalendarMonth;
import towerledger.site.CoolingSystem;
import towerledger.site.Site;
import towerledger.site.SiteAccess;
import towerledger.site.Sites;
import towerledger.wording.Cautions;
import towerledger.wording.VerdictText;
import towerledger.wording.Words;

/**
 * Writes a report from the ledger. It reads as a login of the customer would, through the one place
 * that knows whose things are whose, so that nothing of another customer can come in.
 */
@Component
public class ReportWriter {

  /** Months drawn and compared. */
  static final int MONTHS = 13;

  private static final int MOST_ROWS = 100_000;

  private final Ledger ledger;
  private final MonthReview review;
  private final SiteAccess access;
  private final Sites sites;
  private final WorkInHand workInHand;
  private final MessageSource messages;

  ReportWriter(
      Ledger ledger,
      MonthReview review,
      SiteAccess access,
      Sites sites,
      WorkInHand workInHand,
      MessageSource messages) {
    this.ledger = ledger;
    this.review = review;
    this.access = access;
    this.sites = sites;
    this.workInHand = workInHand;
    this.messages = messages;
  }

  /** Whether the customer has any system to report on. */
  @Transactional(readOnly = true)
  public boolean hasSystems(long customerId) {
    return access.listSites(reader(customerId)).stream()
        .anyMatch(site -> !sites.listSystems(site).isEmpty());
  }

  /**
   * A report with the figures behind it.
   *
   * @param csv the figures as CSV
   */
  public record Written(MonthlyReport report, String csv) {}

  /** The report as the ledger stands now. */
  @Transactional(readOnly = true)
  public Written write(ReportOrder order) {
    FigureText text = FigureText.of(order.units(), order.language());
    Words words = new Words(messages, text.locale());
    Viewer viewer = reader(order.customerId());
    Gathered gathered = gather(order, viewer);
    Totals totals = new Totals(gathered.rows(), order.customer().currency());
    List<MonthlyReport.Restated> restated =
        new RestatedText(words, text).say(restated(order, viewer));
    List<MonthlyReport.Matter> matters = matters(order, gathered, words, text);
    List<MonthlyReport.Untold> untold = untold(order, gathered, words, text);
    int unsettled = ledger.countUnsettled(order.customerId(), order.month());
    HeadText head = new HeadText(order, totals, unsettled, words, text);
    ReportTables tables = new ReportTables(order, gathered, words, text);
    ReportDrawings drawings = new ReportDrawings(order, gathered, words, text);
    MonthlyReport report =
        new MonthlyReport(
            head.head(gathered.rows()),
            head.lead(gathered.rows().size()),
            head.sentences(),
            head.sums(),
            drawings.picture(),
            matters,
            untold,
            restated,
            new CreditText(words, text).say(totals, gathered, order),
            evidence(gathered.rows(), words, text),
            cautions(gathered.rows(), words),
            drawings.charts(),
            tables.sites(),
            !matters.isEmpty() || !untold.isEmpty() || !restated.isEmpty());
    return new Written(report, FiguresCsv.of(gathered.rows(), order.units()));
  }

  /**
   * What a report is written from.
   *
   * @param rows the month's standing rows, dearest waste first
   * @param trends standing rows of thirteen months, by system
   * @param workings derivations of the rows where something is wrong or not to be told, by system
   * @param visits visits to those systems since the month began
   * @param withoutRow systems that have no row for the month, with their sites
   * @param zones time zone of each site by its code
   */
  record Gathered(
      List<LedgerEntry> rows,
      Map<Long, List<LedgerEntry>> trends,
      Map<Long, MonthWorking> workings,
      Map<Long, List<VisitNote>> visits,
      Map<CoolingSystem, Site> withoutRow,
      Map<String, ZoneId> zones) {

    /** Rows where something is wrong. */
    List<LedgerEntry> flagged() {
      return rows.stream().filter(row -> row.verdict().flagged()).toList();
    }
  }

  /** The customer as a reader, so that access decides what is seen. */
  private static Viewer reader(long customerId) {
    return new Viewer(
        0,
        "report@towerledger.invalid",
        "report",
        Role.CUSTOMER,
        customerId,
        TokenScope.READ,
        false,
        UnitPreference.US,
        "en");
  }

  private Gathered gather(ReportOrder order, Viewer viewer) {
    List<LedgerEntry> rows = review.page(viewer, order.month(), ReviewFilter.all(), 0, MOST_ROWS);
    Set<Long> ids =
        rows.stream()
            .map(row -> row.of().systemId())
            .collect(Collectors.toCollection(LinkedHashSet::new));
    Map<Long, MonthWorking> workings = new HashMap<>();
    for (LedgerEntry row : rows) {
      if (row.verdict().flagged() || row.verdict().likeliest() == Cause.MISSING_DATA) {
        access
            .findSystem(viewer, row.of().system())
            .flatMap(system -> ledger.findWorking(system, row.month(), row.revision()))
            .ifPresent(working -> workings.put(row.of().systemId(), working));
      }
    }
    Map<CoolingSystem, Site> withoutRow = new LinkedHashMap<>();
    Map<String, ZoneId> zones = new HashMap<>();
    for (Site site : access.listSites(viewer)) {
      zones.put(site.code(), site.details().zone());
      for (CoolingSystem system : sites.listSystems(site)) {
        if (!ids.contains(system.id())) {
          withoutRow.put(system, site);
        }
      }
    }
    Instant from = CalendarMonth.of(order.month(), order.zone()).span().startInclusive();
    return new Gathered(
        rows,
        review.trends(ids, order.month().minusMonths(MONTHS - 1L), order.month()),
        workings,
        workInHand.visits(workings.keySet(), from, order.preparedAt()),
        withoutRow,
        zones);
  }

  private List<Restatement> restated(ReportOrder order, Viewer viewer) {
    Instant since = order.since();
    YearMonth last = order.edition() > 1 ? order.month() : order.month().minusMonths(1);
    return since == null
        ? List.of()
        : ledger.listRestated(viewer, since).stream()
            .filter(change -> !change.after().month().isAfter(last))
            .toList();
  }

  private List<MonthlyReport.Matter> matters(
      ReportOrder order, Gathered gathered, Words words, FigureText text) {
    MatterText matter = new MatterText(words, text);
    return gathered.flagged().stream()
        .sorted(Comparator.comparing(row -> !row.verdict().waste()))
        .map(
            row ->
                matter.say(
                    row,
                    gathered.workings().get(row.of().systemId()),
                    gathered.zones().getOrDefault(row.of().site(), order.zone()),
                    workInHand.say(
                        row.of().systemId(),
                        row.month(),
                        gathered.visits().getOrDefault(row.of().systemId(), List.of()),
                        gathered.zones().getOrDefault(row.of().site(), order.zone()),
                        words,
                        text)))
        .toList();
  }

  private static List<MonthlyReport.Untold> untold(
      ReportOrder order, Gathered gathered, Words words, FigureText text) {
    MatterText matter = new MatterText(words, text);
    List<MonthlyReport.Untold> untold = new ArrayList<>();
    for (LedgerEntry row : gathered.rows()) {
      if (row.verdict().likeliest() == Cause.MISSING_DATA) {
        untold.add(matter.untold(row, gathered.workings().get(row.of().systemId())));
      }
    }
    gathered
        .withoutRow()
        .forEach(
            (system, site) ->
                untold.add(
                    new MonthlyReport.Untold(
                        words.of("report.of-site", system.details().name(), site.details().name()),
                        words.of("report.untold.no-row", text.month(order.month())),
                        words.of("cause.missing-data.next"))));
    return untold;
  }

  private static List<String> evidence(List<LedgerEntry> rows, Words words, FigureText text) {
    VerdictText verdict = new VerdictText(words, text);
    List<String> said = new ArrayList<>();
    Map<String, Long> grades =
        rows.stream()
            .sorted(
                Comparator.comparing(
                    row -> row.evidence() == null ? Integer.MAX_VALUE : row.evidence().ordinal()))
            .collect(
                Collectors.groupingBy(
                    verdict::evidence, LinkedHashMap::new, Collectors.counting()));
    grades.forEach((grade, count) -> said.add(words.of("report.evidence.grade", count, grade)));
    if (!rows.isEmpty()) {
      said.add(words.of("report.evidence.interval"));
    }
    return said;
  }

  private static List<String> cautions(List<LedgerEntry> rows, Words words) {
    List<Cause> causes =
        rows.stream()
            .filter(row -> row.verdict().flagged())
            .flatMap(row -> row.verdict().causeSet().stream())
            .distinct()
            .toList();
    return Cautions.of(causes, words);
  }
}
