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
import towerledger.quantity.Volume;
import towerledger.wording.MoneyText;
import towerledger.wording.VerdictText;
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
        since(working, zone),
        inHand,
        verdict.next(row.verdict().likeliest()));
  }

  private String lost(LedgerEntry row) {
    LedgerWater water = row.water();
    String volume = estimate(water.loss(), water.lossLow(), water.lossHigh());
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
        .collect(Collectors.joining("; "));
  }

  private String since(@Nullable MonthWorking working, ZoneId zone) {
    if (working == null || working.onset() == null || working.lossSinceOnset() == null) {
      return "";
    }
    return words.of(
        "system.sentence.since",
        working.onsetAt() == null
            ? text.month(working.onset())
            : text.moment(working.onsetAt(), zone),
        text.estimate(
            working.lossSinceOnset().value(),
            working.lossSinceOnset().low(),
            working.lossSinceOnset().high()));
  }

  MonthlyReport.Untold untold(LedgerEntry row, @Nullable MonthWorking working) {
    LedgerWater water = row.water();
    String says =
        water.expectedMakeup() == null
            ? words.of("report.untold.nothing")
            : words.of(
                "report.untold.expected",
                estimate(water.expectedMakeup(), water.expectedLow(), water.expectedHigh()));
    String toAdd =
        working == null || working.whatToAdd().isEmpty()
            ? words.of("cause.missing-data.next")
            : String.join("; ", working.whatToAdd());
    return new MonthlyReport.Untold(name(row), says, toAdd);
  }

  private String name(LedgerEntry row) {
    return words.of("report.of-site", row.of().systemName(), row.of().siteName());
  }

  private String estimate(@Nullable Double value, @Nullable Double low, @Nullable Double high) {
    return value == null || low == null || high == null
        ? words.of("figure.unknown")
        : text.estimate(Volume.ofLitres(value), Volume.ofLitres(low), Volume.ofLitres(high));
  }
}
