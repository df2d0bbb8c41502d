package towerledger.office;

import jakarta.servlet.ServletContext;
import java.time.Clock;
import java.time.LocalDate;
import java.time.YearMonth;
import java.time.ZoneId;
import java.util.ArrayList;
import java.util.List;
import java.util.Optional;
import java.util.stream.Collectors;
import org.jspecify.annotations.Nullable;
import org.springframework.context.MessageSource;
import org.springframework.stereotype.Component;
import org.springframework.transaction.annotation.Transactional;
import towerledger.account.Viewer;
import towerledger.drawing.FigureText;
import towerledger.drawing.SystemMonths;
import towerledger.finding.Finding;
import towerledger.finding.Findings;
import towerledger.ledger.Ledger;
import towerledger.ledger.LedgerEntry;
import towerledger.ledger.MonthWorking;
import towerledger.page.Html;
import towerledger.page.Plate;
import towerledger.page.SystemPlates;
import towerledger.site.CoolingSystem;
import towerledger.site.Meter;
import towerledger.site.Site;
import towerledger.site.SiteAccess;
import towerledger.site.Sites;
import towerledger.site.Tower;
import towerledger.wording.MoneyText;
import towerledger.wording.VerdictText;
import towerledger.wording.WaterText;
import towerledger.wording.Words;

/** Composes the page of one system. */
@Component
class SystemPage {

  private static final int MONTHS = 25;
  private static final int VISITS = 12;

  /** Months of the ledger table. */
  private static final int KEPT = 60;

  private final SiteAccess access;
  private final Ledger ledger;
  private final Sites sites;
  private final EquipmentTables equipment;
  private final Findings findings;
  private final EvidencePlates evidence;
  private final SystemEvents events;
  private final MessageSource messages;
  private final Clock clock;
  private final ServletContext servlets;

  SystemPage(
      SiteAccess access,
      Ledger ledger,
      Sites sites,
      EquipmentTables equipment,
      Findings findings,
      EvidencePlates evidence,
      SystemEvents events,
      MessageSource messages,
      Clock clock,
      ServletContext servlets) {
    this.access = access;
    this.ledger = ledger;
    this.sites = sites;
    this.equipment = equipment;
    this.findings = findings;
    this.evidence = evidence;
    this.events = events;
    this.messages = messages;
    this.clock = clock;
    this.servlets = servlets;
  }

  /**
   * The page; empty when the viewer has no such system.
   *
   * <p>In one transaction: the figures of a page are those of one moment, over one connection.
   *
   * @param wanted month to show; null for the newest
   */
  @Transactional(readOnly = true)
  Optional<SystemView> find(
      Viewer viewer, String code, @Nullable YearMonth wanted, FigureText text) {
    return access.findSystem(viewer, code).map(system -> compose(viewer, system, wanted, text));
  }

  private SystemView compose(
      Viewer viewer, CoolingSystem system, @Nullable YearMonth wanted, FigureText text) {
    Words words = new Words(messages, text.locale());
    List<LedgerEntry> all = ledger.listNewest(system, KEPT);
    YearMonth month = wanted != null ? wanted : newest(viewer, all);
    Site site = sites.findSite(system.siteId()).orElseThrow();
    Optional<LedgerEntry> entry = all.stream().filter(row -> row.month().equals(month)).findFirst();
    Optional<MonthWorking> working =
        entry.flatMap(row -> ledger.findWorking(system, month, row.revision()));
    ZoneId zone = site.details().zone();
    List<Finding> found = findings.listOf(system.id());
    List<SystemEvents.Event> happened =
        events.list(system, found, zone, month.minusMonths(MONTHS - 1L), month, words);
    EquipmentTables.Standing standing = equipment.find(system);
    String whose =
        entry
            .map(e -> words.of("review.whose", e.of().siteName(), e.of().customerName()))
            .orElse(site.details().name());
    Drawn drawn =
        all.isEmpty()
            ? new Drawn(List.of(), List.of())
            : plates(system, site, standing, all, month, working, happened, words, text);
    return new SystemView(
        system.code(),
        system.details().name(),
        whose,
        month.toString(),
        text.month(month),
        neighbour(all, month.minusMonths(1)),
        neighbour(all, month.plusMonths(1)),
        entry
            .map(
                row ->
                    new MonthSays(words, text)
                        .say(row, working.orElseThrow(), site.details().zone()))
            .orElse(null),
        drawn.signs(),
        drawn.plates(),
        rows(system, all, month, words, text),
        found.stream().map(f -> line(f, words, text)).toList(),
        visits(happened, zone, text),
        viewer.canAdminister(),
        site.code(),
        standing.towers().stream().map(Tower::code).toList(),
        standing.meters().stream().map(Meter::code).toList(),
        EquipmentTables.of(standing, site, words, text));
  }

  /** The newest month of the system that is over, else that of all systems. */
  private YearMonth newest(Viewer viewer, List<LedgerEntry> all) {
    return Ledger.newestEnded(all)
        .or(() -> ledger.findNewestEnded(viewer))
        .orElseGet(() -> YearMonth.from(clock.instant().atZone(clock.getZone())));
  }

  static SystemView.FindingLine line(Finding finding, Words words, FigureText text) {
    return new SystemView.FindingLine(
        finding.id(),
        text.month(finding.onset().orElse(finding.first())),
        finding.causeSet().stream()
            .map(cause -> words.of("cause." + cause.code()))
            .collect(Collectors.joining(words.of("verdict.or"))),
        words.of("finding.status." + finding.status().code()),
        finding.waste());
  }

  private static @Nullable String neighbour(List<LedgerEntry> all, YearMonth month) {
    return all.stream().anyMatch(row -> row.month().equals(month)) ? month.toString() : null;
  }

  /** The charts with what the signs over them mean. */
  private record Drawn(List<Plate.Legend> signs, List<Plate> plates) {}

  private Drawn plates(
      CoolingSystem system,
      Site site,
      EquipmentTables.Standing standing,
      List<LedgerEntry> all,
      YearMonth month,
      Optional<MonthWorking> working,
      List<SystemEvents.Event> happened,
      Words words,
      FigureText text) {
    YearMonth first = month.minusMonths(MONTHS - 1L);
    ZoneId zone = site.details().zone();
    SystemMonths months =
        new SystemMonths(all, first, month, text)
            .marked(SystemEvents.marks(happened, first, zone, text));
    String currency = all.get(0).money().currency().getCurrencyCode();
    SystemPlates plates = new SystemPlates(months, words, text, currency);
    SystemPlates year =
        new SystemPlates(
            new SystemMonths(all, month.minusMonths(12), month, text)
                .marked(SystemEvents.marks(happened, month.minusMonths(12), zone, text)),
            words,
            text,
            currency);
    List<Plate> shown = new ArrayList<>();
    shown.add(year.whereItWent());
    shown.add(plates.againstExpected());
    // where nothing is metered they would be empty axes
    if (all.stream()
        .filter(row -> !row.month().isBefore(first) && !row.month().isAfter(month))
        .anyMatch(row -> row.water().unaccounted() != null)) {
      shown.add(plates.unaccounted());
      shown.add(plates.running(working.map(MonthWorking::onset)));
    }
    if (all.stream().anyMatch(row -> row.verdict().waste())) {
      shown.add(plates.money());
      shown.add(plates.runningMoney());
    }
    shown.add(plates.cycles());
    shown.addAll(evidence.of(system, site, standing, months.months(), month, text));
    return new Drawn(plates.signs(), shown);
  }

  /** The newest things that happened, newest first; those of findings stand under findings. */
  static List<SystemView.Happened> visits(
      List<SystemEvents.Event> happened, ZoneId zone, FigureText text) {
    List<SystemView.Happened> visits = new ArrayList<>();
    for (int i = happened.size() - 1; i >= 0 && visits.size() < VISITS; i--) {
      SystemEvents.Event event = happened.get(i);
      if (event.finding() == 0) {
        visits.add(
            new SystemView.Happened(text.day(LocalDate.ofInstant(event.at(), zone)), event.says()));
      }
    }
    return visits;
  }

  /** The ledger, newest month first. */
  private String rows(
      CoolingSystem system, List<LedgerEntry> all, YearMonth month, Words words, FigureText text) {
    VerdictText verdict = new VerdictText(words, text);
    WaterText figures = new WaterText(words, text);
    String unit = text.volumeUnitName();
    SystemView.Headings headings =
        new SystemView.Headings(
            words.of("system.state"),
            words.of("system.makeup.in", unit),
            words.of("system.expected.in", unit),
            words.of("review.unaccounted", unit),
            words.of("review.cost"),
            words.of("system.revision"));
    String address = servlets.getContextPath() + "/systems/" + system.code();
    Html rows = new Html(all.size() * 800);
    for (int i = all.size() - 1; i >= 0; i--) {
      LedgerEntry entry = all.get(i);
      new SystemView.Row(
              address + "?month=" + entry.month(),
              text.month(entry.month()),
              words.of("status." + entry.status().code()),
              figures.bareVolume(entry.water().makeup()),
              figures.bareExpected(entry.water()),
              figures.bareUnaccounted(entry.water()),
              verdict.verdict(entry),
              MoneyText.loss(entry, text, words),
              entry.verdict().waste(),
              entry.month().equals(month),
              address + "/working/" + entry.month(),
              words.of("system.revision.of", entry.revision()))
          .write(rows, headings);
    }
    return rows.toString();
  }
}
