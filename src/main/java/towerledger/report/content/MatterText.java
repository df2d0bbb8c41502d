package towerledger.report.content;

import java.time.ZoneId;
import java.util.List;
import java.util.stream.Collectors;
import org.jspecify.annotations.Nullable;
import towerledger.balance.CauseOpinion;
import towerledger.drawing.FigureText;
import towerledger.ledger.LedgerEntry;
import towerledger.ledger.LedgerWater;
import towerledger.ledger.MonthWorking;
import towerledger.wording.MoneyText;
import towerledger.wording.ReasonText;
import towerledger.wording.VerdictText;
import towerledger.wording.WaterText;
import towerledger.wording.Words;

/** Says what is wrong with one system, or why nothing can be told of it. */
record MatterText(Words words, FigureText text) {

  private static final int MOST_REASONS = 3;

  MonthlyReport.Matter say(
      LedgerEntry row, @Nullable MonthWorking working, ZoneId zone, List<String> inHand) {
    VerdictText verdict = new VerdictText(words, text);
    boolean waste = row.verdict().waste();
    return new MonthlyReport.Matter(
        name(row),
        waste,
        waste ? lost(row) : words.of("report.matter.flagged"),
        verdict.causes(row),
        why(row, working),
        working == null ? "" : verdict.since(working, zone).orElse(""),
        inHand,
        verdict.next(row.verdict().likeliest()));
  }

  private String lost(LedgerEntry row) {
    LedgerWater water = row.water();
    String volume = new WaterText(words, text).loss(water);
    return row.money().lossAmount() == null
        ? words.of("report.matter.lost.unpriced", volume)
        : words.of("report.matter.lost", volume, MoneyText.loss(row, text, words));
  }

  private String why(LedgerEntry row, @Nullable MonthWorking working) {
    if (working == null) {
      return "";
    }
    return working.opinions().stream()
        .filter(opinion -> opinion.cause() == row.verdict().likeliest())
        .map(CauseOpinion::evidenceFor)
        .flatMap(List::stream)
        .limit(MOST_REASONS)
        .map(new ReasonText(words, text)::say)
        .collect(Collectors.joining("; "));
  }

  MonthlyReport.Untold untold(LedgerEntry row, @Nullable MonthWorking working) {
    LedgerWater water = row.water();
    String says =
        water.expectedMakeup() == null
            ? words.of("report.untold.nothing")
            : words.of("report.untold.expected", new WaterText(words, text).expected(water));
    String toAdd =
        working == null || working.whatToAdd().isEmpty()
            ? words.of("cause.missing-data.next")
            : String.join("; ", new ReasonText(words, text).say(working.whatToAdd()));
    return new MonthlyReport.Untold(name(row), says, toAdd);
  }

  private String name(LedgerEntry row) {
    return words.of("report.of-site", row.of().systemName(), row.of().siteName());
  }
}
