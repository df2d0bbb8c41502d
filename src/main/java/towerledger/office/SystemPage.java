package towerledger.office;

import jakarta.servlet.ServletContext;
import java.time.Clock;
import java.time.YearMonth;
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
import towerledger.ledger.Ledger;
import towerledger.ledger.LedgerEntry;
import towerledger.ledger.MonthWorking;
import towerledger.page.Html;
import towerledger.page.Plate;
import towerledger.page.SystemPlates;
import towerledger.query.Questions;
import towerledger.site.CoolingSystem;
import towerledger.site.Meter;
import towerledger.site.Site;
import towerledger.site.SiteAccess;
import towerledger.site.SystemPlaces;
import towerledger.site.Tower;
import towerledger.wording.MoneyText;
import towerledger.wording.VerdictText;
import towerledger.wording.WaterText;
import towerledger.wording.Words;

/** Composes the page of one system. */
@Component
class SystemPage {

  /** The month of the year before is beside the month shown. */
  private static final int YEAR = 13;

  private static final int VISITS = 12;

  private final SiteAccess access;
  private final Questions questions;
  private final Ledger ledger;
  private final SystemPlaces places;
  private final MessageSource messages;
  private final Clock clock;
  private final ServletContext servlets;

  SystemPage(
      SiteAccess access,
      Questions questions,
      Ledger ledger,
      SystemPlaces places,
      MessageSource messages,
      Clock clock,
      ServletContext servlets) {
    this.access = access;
    this.questions = questions;
    this.ledger = ledger;
    this.places = places;
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
    return access
        .findSystemAtSite(viewer, code)
        .map(
            place ->
                SystemFacts.read(
                    questions,
                    ledger,
                    places,
                    place,
                    wanted,
                    () ->
                        ledger
                            .findNewestEnded(viewer)
                            .orElseGet(
                                () -> YearMonth.from(clock.instant().atZone(clock.getZone())))))
        .map(facts -> compose(viewer, facts, text));
  }

  private SystemView compose(Viewer viewer, SystemFacts facts, FigureText text) {
    Words words = new Words(messages, text.locale());
    CoolingSystem system = facts.system();
    Site site = facts.site();
    YearMonth month = facts.month();
    List<SystemEvents.Event> happened =
        SystemEvents.list(facts.visits(), facts.findings(), facts.span(), words);
    String whose =
        facts
            .entry()
            .map(e -> words.of("review.whose", e.of().siteName(), e.of().customerName()))
            .orElse(site.details().name());
    Drawn drawn =
        facts.rows().isEmpty()
            ? new Drawn(List.of(), List.of())
            : plates(facts, happened, words, text);
    return new SystemView(
        system.code(),
        system.details().name(),
        whose,
        month.toString(),
        text.month(month),
        neighbour(facts.rows(), month.minusMonths(1)),
        neighbour(facts.rows(), month.plusMonths(1)),
        facts
            .entry()
            .map(
                row ->
                    new MonthSays(words, text)
                        .say(row, facts.working().orElseThrow(), facts.zone()))
            .orElse(null),
        drawn.signs(),
        drawn.plates(),
        rows(system, facts.rows(), month, words, text),
        facts.findings().stream().map(f -> line(f, words, text)).toList(),
        SystemEvents.visits(facts.visits(), VISITS, facts.zone(), words, text),
        viewer.canAdminister(),
        site.code(),
        facts.standing().towers().stream().map(Tower::code).toList(),
        facts.standing().meters().stream().map(Meter::code).toList(),
        EquipmentTables.settings(facts.standing().settings(), words, text),
        EquipmentTables.of(facts.standing(), site, words, text));
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

  private static Drawn plates(
      SystemFacts facts, List<SystemEvents.Event> happened, Words words, FigureText text) {
    SystemMonths months = months(facts, SystemFacts.MONTHS, happened, text);
    String currency = facts.rows().get(0).money().currency().getCurrencyCode();
    SystemPlates plates = new SystemPlates(months, words, text, currency);
    SystemPlates year =
        new SystemPlates(months(facts, YEAR, happened, text), words, text, currency);
    List<Plate> shown = new ArrayList<>();
    shown.add(year.whereItWent());
    shown.add(plates.againstExpected());
    // where nothing is metered they would be empty axes
    if (months.entries().stream()
        .flatMap(Optional::stream)
        .anyMatch(row -> row.water().unaccounted() != null)) {
      shown.add(plates.unaccounted());
      shown.add(plates.running(facts.working().map(MonthWorking::onset)));
    }
    if (facts.rows().stream().anyMatch(row -> row.verdict().waste())) {
      shown.add(plates.money());
      shown.add(plates.runningMoney());
    }
    shown.add(plates.cycles());
    shown.addAll(EvidencePlates.of(facts, months.months(), words, text));
    return new Drawn(plates.signs(), shown);
  }

  /** So many months up to the one shown, with what happened in them. */
  private static SystemMonths months(
      SystemFacts facts, int count, List<SystemEvents.Event> happened, FigureText text) {
    YearMonth first = facts.month().minusMonths(count - 1L);
    return new SystemMonths(facts.rows(), first, facts.month(), text)
        .marked(SystemEvents.marks(happened, first, facts.zone(), text));
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
