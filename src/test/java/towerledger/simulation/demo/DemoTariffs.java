package towerledger.simulation.demo;

import java.math.BigDecimal;
import java.math.RoundingMode;
import java.time.LocalDate;
import java.util.List;
import org.jspecify.annotations.Nullable;

/** Rates of four invented utilities, and the bills that follow from them. */
final class DemoTariffs {

  /** A dated schedule as its utility prints it. */
  record Schedule(
      String code,
      String service,
      LocalDate from,
      String unit,
      String name,
      int monthsPerBill,
      @Nullable BigDecimal minimum,
      @Nullable BigDecimal surchargePercent,
      @Nullable BigDecimal taxPercent,
      @Nullable String sewerBasis,
      @Nullable BigDecimal sewerPercent,
      @Nullable String winterMonths,
      @Nullable String credit,
      @Nullable BigDecimal creditPercent,
      @Nullable BigDecimal creditMinimum,
      @Nullable BigDecimal creditCap,
      @Nullable String creditDeadline,
      List<Charge> charges,
      List<Block> blocks) {}

  /** A fixed charge per bill, for one meter size or all. */
  record Charge(String name, @Nullable Integer meterIn, BigDecimal amount) {}

  /** A block of use; season months are 0 for the whole year. */
  record Block(int firstMonth, int lastMonth, int fromUnits, BigDecimal rate) {}

  private DemoTariffs() {}

  static List<Schedule> all() {
    return List.of(
        mesquiteWater(LocalDate.of(2024, 7, 1), "1.00"),
        mesquiteWater(LocalDate.of(2026, 7, 1), "1.04"),
        mesquiteSewer(LocalDate.of(2024, 7, 1), "7.85"),
        mesquiteSewer(LocalDate.of(2026, 7, 1), "8.25"),
        water(
            "PA-WATER",
            "Port Amaranth commercial water",
            "kgal",
            1,
            null,
            "3.0",
            List.of(
                charge("Customer charge", null, "14.50"),
                charge("Meter charge", 3, "78.00"),
                charge("Meter charge", 4, "121.00"),
                charge("Meter charge", 6, "236.00")),
            List.of(block(0, "3.95"), block(100, "4.85"), block(1500, "5.60"))),
        sewer("PA-SEWER", "Port Amaranth commercial sewer", "kgal", "8.60", "none", null),
        sewer(
            "PA-SEWER-IND",
            "Port Amaranth industrial sewer",
            "kgal",
            "9.10",
            "percent-of-makeup",
            "70"),
        water(
            "AB-WATER",
            "Alderbrook public buildings water",
            "ccf",
            2,
            "62.00",
            null,
            List.of(charge("Service charge", 1, "31.40"), charge("Service charge", 2, "58.75")),
            List.of(block(0, "5.10"), block(60, "6.05"))),
        new Schedule(
            "AB-SEWER",
            "sewer",
            LocalDate.of(2025, 1, 1),
            "ccf",
            "Alderbrook public buildings sewer",
            2,
            null,
            null,
            null,
            "winter-average",
            null,
            "12-3",
            "none",
            null,
            null,
            null,
            null,
            List.of(charge("Service charge", null, "18.20")),
            List.of(block(0, "7.90"))),
        water(
            "LO-WATER",
            "Lake Ostara large meters water",
            "ccf",
            1,
            null,
            null,
            List.of(
                charge("Readiness to serve", 4, "132.60"),
                charge("Readiness to serve", 6, "291.30")),
            List.of(block(0, "3.42"), block(400, "3.96"))),
        new Schedule(
            "LO-SEWER",
            "sewer",
            LocalDate.of(2025, 1, 1),
            "ccf",
            "Lake Ostara sewer",
            1,
            null,
            dec("2.5"),
            null,
            "percent-of-water",
            dec("92"),
            null,
            "engineered",
            null,
            dec("20"),
            null,
            "worked calculation by 1 March for the year before",
            List.of(charge("Readiness to serve", null, "44.10")),
            List.of(block(0, "5.28"))));
  }

  private static Schedule mesquiteWater(LocalDate from, String factor) {
    return new Schedule(
        "MB-WATER",
        "water",
        from,
        "kgal",
        "Mesquite Bend large commercial water",
        1,
        null,
        null,
        dec("2.1"),
        null,
        null,
        null,
        null,
        null,
        null,
        null,
        null,
        List.of(
            charge("Service charge", 4, scaled("148.60", factor)),
            charge("Service charge", 6, scaled("305.00", factor))),
        List.of(
            season(5, 10, 0, scaled("4.10", factor)),
            season(5, 10, 50, scaled("5.35", factor)),
            season(5, 10, 600, scaled("6.90", factor)),
            season(11, 4, 0, scaled("3.60", factor)),
            season(11, 4, 50, scaled("4.70", factor)),
            season(11, 4, 600, scaled("5.80", factor))));
  }

  private static Schedule mesquiteSewer(LocalDate from, String rate) {
    return new Schedule(
        "MB-SEWER",
        "sewer",
        from,
        "kgal",
        "Mesquite Bend commercial sewer",
        1,
        null,
        null,
        null,
        "metered-water",
        null,
        null,
        "makeup-minus-blowdown",
        null,
        dec("10"),
        null,
        "meter reads by the 15th of the month after",
        List.of(charge("Account charge", null, "22.00")),
        List.of(block(0, rate)));
  }

  private static Schedule water(
      String code,
      String name,
      String unit,
      int months,
      @Nullable String minimum,
      @Nullable String tax,
      List<Charge> charges,
      List<Block> blocks) {
    return new Schedule(
        code,
        "water",
        LocalDate.of(2025, 1, 1),
        unit,
        name,
        months,
        minimum == null ? null : dec(minimum),
        null,
        tax == null ? null : dec(tax),
        null,
        null,
        null,
        null,
        null,
        null,
        null,
        null,
        charges,
        blocks);
  }

  private static Schedule sewer(
      String code,
      String name,
      String unit,
      String rate,
      String credit,
      @Nullable String creditPercent) {
    return new Schedule(
        code,
        "sewer",
        LocalDate.of(2025, 1, 1),
        unit,
        name,
        1,
        null,
        null,
        null,
        "metered-water",
        null,
        null,
        credit,
        creditPercent == null ? null : dec(creditPercent),
        null,
        null,
        null,
        List.of(charge("Account charge", null, "19.75")),
        List.of(block(0, rate)));
  }

  private static Charge charge(String name, @Nullable Integer meterIn, String amount) {
    return new Charge(name, meterIn, dec(amount));
  }

  private static Block block(int fromUnits, String rate) {
    return new Block(0, 0, fromUnits, dec(rate));
  }

  private static Block season(int first, int last, int fromUnits, String rate) {
    return new Block(first, last, fromUnits, dec(rate));
  }

  private static String scaled(String amount, String factor) {
    return dec(amount).multiply(dec(factor)).setScale(2, RoundingMode.HALF_UP).toPlainString();
  }

  private static BigDecimal dec(String text) {
    return new BigDecimal(text);
  }

  /** The schedule of a code in force on a day. */
  static Schedule inForce(String code, LocalDate day) {
    Schedule found = null;
    for (Schedule schedule : all()) {
      if (schedule.code().equals(code) && !schedule.from().isAfter(day)) {
        found = schedule;
      }
    }
    if (found == null) {
      throw new IllegalArgumentException("no schedule %s on %s".formatted(code, day));
    }
    return found;
  }

  /**
   * A bill by the plain reading of a schedule: fixed charges and blocks, not less than the minimum,
   * surcharge on that, tax on all; cents half up at the end.
   */
  static BigDecimal amount(Schedule schedule, int meterIn, BigDecimal units, int month) {
    BigDecimal sum = BigDecimal.ZERO;
    for (Charge charge : schedule.charges()) {
      if (charge.meterIn() == null || charge.meterIn() == meterIn) {
        sum = sum.add(charge.amount());
      }
    }
    BigDecimal billed =
        schedule.sewerPercent() == null
            ? units
            : units.multiply(schedule.sewerPercent()).movePointLeft(2);
    List<Block> blocks =
        schedule.blocks().stream().filter(block -> inSeason(block, month)).toList();
    for (int i = 0; i < blocks.size(); i++) {
      BigDecimal from = BigDecimal.valueOf(blocks.get(i).fromUnits());
      BigDecimal upTo =
          i + 1 < blocks.size() ? BigDecimal.valueOf(blocks.get(i + 1).fromUnits()) : billed;
      BigDecimal held = billed.min(upTo).subtract(from).max(BigDecimal.ZERO);
      sum = sum.add(held.multiply(blocks.get(i).rate()));
    }
    if (schedule.minimum() != null) {
      sum = sum.max(schedule.minimum());
    }
    sum = sum.add(percent(sum, schedule.surchargePercent()));
    sum = sum.add(percent(sum, schedule.taxPercent()));
    return sum.setScale(2, RoundingMode.HALF_UP);
  }

  private static BigDecimal percent(BigDecimal of, @Nullable BigDecimal percent) {
    return percent == null ? BigDecimal.ZERO : of.multiply(percent).movePointLeft(2);
  }

  private static boolean inSeason(Block block, int month) {
    if (block.firstMonth() == 0) {
      return true;
    }
    return block.firstMonth() <= block.lastMonth()
        ? month >= block.firstMonth() && month <= block.lastMonth()
        : month >= block.firstMonth() || month <= block.lastMonth();
  }
}
