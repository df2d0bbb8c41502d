package towerledger.api;

import java.math.BigDecimal;
import java.math.RoundingMode;
import java.util.ArrayList;
import java.util.LinkedHashMap;
import java.util.List;
import java.util.Locale;
import java.util.Map;
import java.util.stream.Collectors;
import org.jspecify.annotations.Nullable;
import towerledger.balance.Cause;
import towerledger.ledger.LedgerEntry;
import towerledger.ledger.LedgerMoney;
import towerledger.ledger.LedgerVerdict;
import towerledger.ledger.LedgerWater;
import towerledger.quantity.Units;

/** A ledger row under the names of the interchange contract, in gallons, for CSV and JSON alike. */
final class LedgerColumns {

  static final List<String> NAMES =
      List.of(
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
          "evaporation_credit_amount");

  /** Volumes of the contract: all of a row's but its own reckoning of the loss, which come last. */
  private static final int VOLUMES = NAMES.indexOf("cycles") - NAMES.indexOf("makeup_gal");

  private LedgerColumns() {}

  /** The values in the order of the names; texts, numbers, or null where nothing is known. */
  static List<@Nullable Object> values(LedgerEntry entry) {
    LedgerWater water = entry.water();
    LedgerVerdict verdict = entry.verdict();
    LedgerMoney money = entry.money();
    Cause second = verdict.second();
    List<@Nullable Object> values = new ArrayList<>(NAMES.size());
    values.add(entry.of().system());
    values.add(entry.month().toString());
    values.add(entry.status().code());
    values.add(entry.evidence() == null ? null : entry.evidence().name());
    water.volumes().subList(0, VOLUMES).forEach(litres -> values.add(gallons(litres)));
    values.add(decimal(water.cycles(), 4));
    values.add(decimal(water.targetCycles(), 4));
    values.add(verdict.flagged() ? 1 : 0);
    values.add(verdict.waste() ? 1 : 0);
    values.add(verdict.likeliest().code());
    values.add(decimal(verdict.probability(), 4));
    values.add(second == null ? null : second.code());
    values.add(verdict.causeSet().stream().map(Cause::code).collect(Collectors.joining(";")));
    values.add(verdict.detectedAt() == null ? null : verdict.detectedAt().toString());
    values.add(plain(entry.wasteAmount()));
    values.add(plain(money.creditAmount()));
    return values;
  }

  /** A row as an object of the same names. */
  static Map<String, @Nullable Object> json(LedgerEntry entry) {
    Map<String, @Nullable Object> row = new LinkedHashMap<>();
    List<@Nullable Object> values = values(entry);
    for (int i = 0; i < NAMES.size(); i++) {
      row.put(NAMES.get(i), values.get(i));
    }
    return row;
  }

  /** A constant as a code: {@code ran-backwards}. */
  static String code(Enum<?> constant) {
    return constant.name().toLowerCase(Locale.ROOT).replace('_', '-');
  }

  /** A thousandth of a gallon: fine enough that the parts still stack to the makeup. */
  private static @Nullable BigDecimal gallons(@Nullable Double litres) {
    return litres == null ? null : decimal(litres / Units.LITRES_PER_US_GALLON, 3);
  }

  private static @Nullable BigDecimal decimal(@Nullable Double value, int decimals) {
    return value == null ? null : new BigDecimal(value).setScale(decimals, RoundingMode.HALF_UP);
  }

  private static @Nullable BigDecimal plain(@Nullable BigDecimal amount) {
    return amount == null ? null : amount.setScale(2, RoundingMode.HALF_UP);
  }
}
