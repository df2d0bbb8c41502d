package towerledger.api;

import java.io.IOException;
import java.io.UncheckedIOException;
import java.math.BigDecimal;
import java.util.Locale;
import java.util.stream.Collectors;
import org.apache.commons.csv.CSVFormat;
import org.apache.commons.csv.CSVPrinter;
import org.jspecify.annotations.Nullable;
import towerledger.balance.Cause;
import towerledger.ledger.LedgerEntry;
import towerledger.ledger.LedgerMoney;
import towerledger.ledger.LedgerVerdict;
import towerledger.ledger.LedgerWater;
import towerledger.quantity.Units;

/** Writes ledger rows as the interchange contract has them: one row a system and month, gallons. */
final class LedgerCsv {

  private static final String[] HEADER = {
    "system",
    "month",
    "status",
    "evidence",
    "makeup_gal",
    "expected_makeup_gal",
    "expected_low_gal",
    "expected_high_gal",
    "unaccounted_gal",
    "unaccounted_low_gal",
    "unaccounted_high_gal",
    "evaporation_gal",
    "drift_gal",
    "needed_blowdown_gal",
    "excess_loss_gal",
    "fresh_loss_gal",
    "other_use_gal",
    "storage_change_gal",
    "meter_correction_gal",
    "residual_gal",
    "blowdown_gal",
    "gross_loss_gal",
    "cycles",
    "target_cycles",
    "flagged",
    "waste",
    "likeliest_cause",
    "cause_probability",
    "second_cause",
    "cause_set",
    "detected_at",
    "loss_amount",
    "evaporation_credit_amount"
  };

  private final CSVPrinter printer;

  LedgerCsv(Appendable out) throws IOException {
    printer = new CSVPrinter(out, CSVFormat.RFC4180);
    printer.printRecord((Object[]) HEADER);
  }

  void write(LedgerEntry entry) {
    LedgerWater water = entry.water();
    LedgerVerdict verdict = entry.verdict();
    LedgerMoney money = entry.money();
    Cause second = verdict.second();
    try {
      printer.printRecord(
          entry.of().system(),
          entry.month(),
          entry.status().code(),
          entry.evidence(),
          gallons(water.makeup()),
          gallons(water.expectedMakeup()),
          gallons(water.expectedLow()),
          gallons(water.expectedHigh()),
          gallons(water.unaccounted()),
          gallons(water.unaccountedLow()),
          gallons(water.unaccountedHigh()),
          gallons(water.evaporation()),
          gallons(water.drift()),
          gallons(water.neededBlowdown()),
          gallons(water.excessLoss()),
          gallons(water.freshLoss()),
          gallons(water.otherUse()),
          gallons(water.storageChange()),
          gallons(water.meterCorrection()),
          gallons(water.residual()),
          gallons(water.blowdown()),
          gallons(water.grossLoss()),
          ratio(water.cycles()),
          ratio(water.targetCycles()),
          verdict.flagged() ? 1 : 0,
          verdict.waste() ? 1 : 0,
          verdict.likeliest().code(),
          ratio(verdict.probability()),
          second == null ? null : second.code(),
          verdict.causeSet().stream().map(Cause::code).collect(Collectors.joining(";")),
          verdict.detectedAt(),
          plain(money.lossAmount()),
          plain(money.creditAmount()));
    } catch (IOException e) {
      throw new UncheckedIOException(e);
    }
  }

  /** A thousandth of a gallon: fine enough that the parts still stack to the makeup. */
  private static @Nullable String gallons(@Nullable Double litres) {
    return litres == null
        ? null
        : String.format(Locale.ROOT, "%.3f", litres / Units.LITRES_PER_US_GALLON);
  }

  private static @Nullable String ratio(@Nullable Double value) {
    return value == null ? null : String.format(Locale.ROOT, "%.4f", value);
  }

  private static @Nullable String plain(@Nullable BigDecimal amount) {
    return amount == null
        ? null
        : amount.setScale(2, java.math.RoundingMode.HALF_UP).toPlainString();
  }
}
