package towerledger.portal;

import java.time.Clock;
import java.time.Instant;
import java.time.YearMonth;
import java.time.ZoneId;
import java.util.ArrayList;
import java.util.Comparator;
import java.util.List;
import java.util.Optional;
import org.jspecify.annotations.Nullable;
import org.springframework.context.MessageSource;
import org.springframework.stereotype.Component;
import towerledger.account.Viewer;
import towerledger.drawing.FigureText;
import towerledger.drawing.SystemMonths;
import towerledger.drawing.WaterBar;
import towerledger.finding.Findings;
import towerledger.ledger.Ledger;
import towerledger.ledger.LedgerEntry;
import towerledger.ledger.LedgerWater;
import towerledger.logsheet.LogRecords;
import towerledger.page.Plate;
import towerledger.page.SystemPlates;
import towerledger.page.WaterLegend;
import towerledger.quantity.Span;
import towerledger.quantity.Volume;
import towerledger.query.Questions;
import towerledger.site.CoolingSystem;
import towerledger.site.Site;
import towerledger.site.Sites;
import towerledger.wording.BarText;
import towerledger.wording.Cautions;
import towerledger.wording.VerdictText;
import towerledger.wording.WaterText;
import towerledger.wording.Words;

/** Composes the customer's page of one system. */
@Component
class SystemSheet {

  private static final int MONTHS = 13;
  private static final int KEPT = 60;

  private final Questions questions;
  private final Ledger ledger;
  private final Sites sites;
  private final LogRecords log;
  private final Findings findings;
  private final MessageSource messages;
  private final Clock clock;

  SystemSheet(
      Questions questions,
      Ledger ledger,
      Sites sites,
      LogRecords log,
      Findings findings,
      MessageSource messages,
      Clock clock) {
    this.questions = questions;
    this.ledger = ledger;
    this.sites = sites;
    this.log = log;
    this.findings = findings;
    this.messages = messages;
    this.clock = clock;
  }

  PortalView.OneSystem compose(
      Viewer viewer, CoolingSystem system, @Nullable YearMonth wanted, FigureText text) {
    Words words = new Words(messages, text.locale());
    List<LedgerEntry> all = questions.answer(Ledger.newest(system, KEPT));
    YearMonth last =
        all.isEmpty()
            ? ledger.findReach(viewer).map(Ledger.Reach::newest).orElse(Ledger.FIRST_MONTH)
            : all.get(all.size() - 1).month();
    YearMonth month = wanted != null ? wanted : Ledger.newestEnded(all).orElse(last);
    Site site = sites.findSite(system.siteId()).orElseThrow();
    Optional<LedgerEntry> found = all.stream().filter(e -> e.month().equals(month)).findFirst();
    return new PortalView.OneSystem(
        system.code(),
        system.details().name(),
        site.details().name(),
        month.toString(),
        text.month(month),
        neighbour(all, month.minusMonths(1)),
        neighbour(all, month.plusMonths(1)),
        found.map(entry -> sentences(entry, words, text)).orElse(List.of()),
        found.filter(entry -> entry.verdict().waste()).isPresent(),
        found
            .map(
                entry ->
                    BarText.draw(
                        entry,
                        WaterBar.Style.BROAD,
                        SystemMonths.bar(entry.water()).reach(),
                        words,
                        text))
            .orElse(""),
        WaterLegend.of(
            found.stream().map(entry -> SystemMonths.bar(entry.water())).toList(), words),
        found.map(new VerdictText(words, text)::evidence).orElse(""),
        found.map(entry -> words.of("portal.status." + entry.status().code())).orElse(""),
        found
            .map(entry -> Doings.about(entry, findings.listOf(system.id()), words, text))
            .orElse(""),
        found
            .filter(entry -> entry.verdict().flagged())
            .map(entry -> Cautions.of(entry.verdict().causeSet(), words))
            .orElse(List.of()),
        all.isEmpty() ? List.of() : plates(all, month, words, text),
        visits(system, month, site.details().zone(), text),
        MonthPage.csv(last.minusMonths(KEPT - 1L), last) + "&system=" + system.code());
  }

  private static @Nullable String neighbour(List<LedgerEntry> all, YearMonth month) {
    return all.stream().anyMatch(row -> row.month().equals(month)) ? month.toString() : null;
  }

  private static List<String> sentences(LedgerEntry entry, Words words, FigureText text) {
    LedgerWater water = entry.water();
    List<String> said = new ArrayList<>();
    String month = text.month(entry.month());
    if (water.makeup() != null) {
      said.add(
          words.of(
              "portal.system.sentence",
              month,
              text.volume(Volume.ofLitres(water.makeup())),
              new WaterText(words, text).expected(water)));
    } else if (water.expectedMakeup() != null) {
      said.add(
          words.of(
              "portal.system.sentence.unmetered",
              month,
              new WaterText(words, text).expected(water)));
    } else {
      said.add(words.of("portal.system.sentence.nothing", month));
    }
    new VerdictText(words, text).sentence(entry).ifPresent(said::add);
    return said;
  }

  private static List<Plate> plates(
      List<LedgerEntry> all, YearMonth month, Words words, FigureText text) {
    SystemPlates plates =
        new SystemPlates(
            new SystemMonths(all, month.minusMonths(MONTHS - 1L), month, text),
            words,
            text,
            all.get(0).money().currency().getCurrencyCode());
    List<Plate> shown = new ArrayList<>(List.of(plates.whereItWent(), plates.againstExpected()));
    if (all.stream().anyMatch(row -> row.verdict().waste())) {
      shown.add(plates.money());
    }
    shown.add(plates.cycles());
    return shown;
  }

  private List<PortalView.VisitLine> visits(
      CoolingSystem system, YearMonth month, ZoneId zone, FigureText text) {
    Instant from = month.minusMonths(MONTHS - 1L).atDay(1).atStartOfDay(zone).toInstant();
    Instant to = month.plusMonths(1).atDay(1).atStartOfDay(zone).toInstant();
    Instant now = clock.instant();
    if (!from.isBefore(now)) {
      return List.of();
    }
    return log
        .listVisitNotes(List.of(system.id()), Span.of(from, to.isBefore(now) ? to : now))
        .getOrDefault(system.id(), List.of())
        .stream()
        .sorted(Comparator.comparing(note -> note.visit().at(), Comparator.reverseOrder()))
        .map(
            note ->
                new PortalView.VisitLine(
                    text.day(note.visit().at().atZone(zone).toLocalDate()),
                    note.observation().orElse(""),
                    note.workDone().orElse("")))
        .filter(line -> !line.seen().isEmpty() || !line.done().isEmpty())
        .toList();
  }
}
