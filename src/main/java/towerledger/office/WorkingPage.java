package towerledger.office;

import java.time.YearMonth;
import java.time.ZoneId;
import java.util.ArrayList;
import java.util.List;
import java.util.Optional;
import org.jspecify.annotations.Nullable;
import org.springframework.context.MessageSource;
import org.springframework.stereotype.Component;
import towerledger.account.Viewer;
import towerledger.balance.BudgetLine;
import towerledger.balance.WorkingStep;
import towerledger.drawing.FigureText;
import towerledger.ledger.Ledger;
import towerledger.ledger.LedgerEntry;
import towerledger.ledger.MonthWorking;
import towerledger.page.FigureTable;
import towerledger.quantity.Volume;
import towerledger.site.CoolingSystem;
import towerledger.site.Sites;
import towerledger.wording.ReasonText;
import towerledger.wording.VerdictText;
import towerledger.wording.WaterText;
import towerledger.wording.Words;

/** Composes the page that shows the working behind a month. */
@Component
class WorkingPage {

  private final Ledger ledger;
  private final Sites sites;
  private final MessageSource messages;

  WorkingPage(Ledger ledger, Sites sites, MessageSource messages) {
    this.ledger = ledger;
    this.sites = sites;
    this.messages = messages;
  }

  Optional<WorkingView> compose(
      Viewer viewer,
      CoolingSystem system,
      YearMonth month,
      @Nullable Integer wanted,
      FigureText text) {
    List<LedgerEntry> revisions = ledger.listRevisions(system, month);
    Optional<LedgerEntry> shown =
        revisions.stream().filter(row -> wanted == null || row.revision() == wanted).findFirst();
    return shown.flatMap(
        entry ->
            ledger
                .findWorking(system, month, entry.revision())
                .map(working -> view(system, entry, working, revisions, viewer, text)));
  }

  private WorkingView view(
      CoolingSystem system,
      LedgerEntry entry,
      MonthWorking working,
      List<LedgerEntry> revisions,
      Viewer viewer,
      FigureText text) {
    Words words = new Words(messages, text.locale());
    ZoneId zone = sites.findSite(system.siteId()).orElseThrow().details().zone();
    ReasonText kept = new ReasonText(words, text, zone);
    return new WorkingView(
        words.of("bar.title", system.details().name(), text.month(entry.month())),
        "/systems/" + system.code() + "?month=" + entry.month(),
        words.of(
            "working.about",
            words.of("status." + entry.status().code()),
            entry.revision(),
            text.stamp(entry.createdAt(), zone),
            entry.modelVersion(),
            kept.say(entry.reason())),
        working.steps().stream().map(step -> step(step, kept)).toList(),
        budget(working.budget(), kept),
        kept.say(working.assumptions()),
        viewer.canSeePrices() ? kept.say(working.pricing()) : List.of(),
        revisions(system, entry, revisions, zone, words, text));
  }

  private static WorkingView.Step step(WorkingStep step, ReasonText kept) {
    return new WorkingView.Step(
        kept.say(step.name()),
        value(step.value(), step.unit(), kept.figures()),
        kept.say(step.formula()),
        kept.say(step.source()));
  }

  /** SI as kept; volumes and temperatures of the working in the reader's units. */
  private static String value(double value, String unit, FigureText text) {
    if (!Double.isFinite(value)) {
      return "–";
    }
    if (unit.equals("L")) {
      return text.significant(Volume.ofLitres(value).in(text.volumeUnit()), 4)
          + "\u00a0"
          + text.volumeUnitName();
    }
    return text.significant(value, 4) + (unit.isEmpty() ? "" : "\u00a0" + unit);
  }

  private static FigureTable budget(List<BudgetLine> budget, ReasonText kept) {
    Words words = kept.words();
    FigureText text = kept.figures();
    List<List<String>> rows = new ArrayList<>();
    for (BudgetLine line : budget) {
      rows.add(
          List.of(
              kept.say(line.input()),
              kept.say(line.source()),
              text.percent(line.relativeUncertainty()),
              text.volume(Volume.ofLitres(line.contributionLitres()))));
    }
    return new FigureTable(
        List.of(
            words.of("working.budget.input"),
            words.of("working.budget.source"),
            words.of("working.budget.uncertainty"),
            words.of("working.budget.contribution")),
        rows);
  }

  private static List<WorkingView.Revision> revisions(
      CoolingSystem system,
      LedgerEntry shown,
      List<LedgerEntry> revisions,
      ZoneId zone,
      Words words,
      FigureText text) {
    VerdictText verdict = new VerdictText(words, text);
    WaterText figures = new WaterText(words, text);
    return revisions.stream()
        .map(
            row ->
                new WorkingView.Revision(
                    "/systems/%s/working/%s?revision=%d"
                        .formatted(system.code(), row.month(), row.revision()),
                    row.revision(),
                    text.stamp(row.createdAt(), zone),
                    new ReasonText(words, text, zone).say(row.reason()),
                    figures.bareVolume(row.water().makeup()),
                    figures.bareVolume(row.water().unaccounted()),
                    verdict.verdict(row),
                    row.revision() == shown.revision()))
        .toList();
  }
}
