package towerledger.ledger;

import java.lang.reflect.RecordComponent;
import java.util.Arrays;
import org.jspecify.annotations.Nullable;
import towerledger.balance.EvidenceGrade;

/**
 * The figures of a row in words, as its records print themselves: a digest of them is kept with
 * every revision, so that they must never change. The text is put together here by a loop over the
 * figures, since what the virtual machine makes of printing a record of many parts takes it seconds
 * of compiling at every start.
 */
final class FiguresText {

  private static final String[] WATER = names(LedgerWater.class);
  private static final String[] VERDICT = names(LedgerVerdict.class);
  private static final String[] MONEY = names(LedgerMoney.class);

  private FiguresText() {}

  /** What {@code evidence + "|" + water + "|" + verdict + "|" + money} says. */
  static String of(
      @Nullable EvidenceGrade evidence,
      LedgerWater water,
      LedgerVerdict verdict,
      LedgerMoney money) {
    var text = new StringBuilder(1024);
    text.append(evidence).append('|');
    Object[] figures = water.volumes().toArray(new Object[WATER.length]);
    figures[WATER.length - 2] = water.cycles();
    figures[WATER.length - 1] = water.targetCycles();
    write("LedgerWater", WATER, figures, text);
    text.append('|');
    write(
        "LedgerVerdict",
        VERDICT,
        new @Nullable Object[] {
          verdict.flagged(),
          verdict.waste(),
          verdict.likeliest(),
          verdict.probability(),
          verdict.second(),
          verdict.secondProbability(),
          verdict.causeSet(),
          verdict.detectedAt()
        },
        text);
    text.append('|');
    write(
        "LedgerMoney",
        MONEY,
        new @Nullable Object[] {
          money.currency(),
          money.lossAmount(),
          money.lossLow(),
          money.lossHigh(),
          money.expectedWaterAmount(),
          money.creditAmount(),
          money.creditClaimed()
        },
        text);
    return text.toString();
  }

  private static void write(
      String record, String[] names, @Nullable Object[] values, StringBuilder text) {
    text.append(record);
    for (int i = 0; i < names.length; i++) {
      text.append(i == 0 ? "[" : ", ").append(names[i]).append('=').append(values[i]);
    }
    text.append(']');
  }

  private static String[] names(Class<? extends Record> record) {
    return Arrays.stream(record.getRecordComponents())
        .map(RecordComponent::getName)
        .toArray(String[]::new);
  }
}
