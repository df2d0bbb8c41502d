package towerledger.tariff;

import java.math.BigDecimal;
import java.time.LocalDate;
import java.util.ArrayList;
import java.util.Comparator;
import java.util.LinkedHashMap;
import java.util.List;
import java.util.Map;
import java.util.Optional;
import org.jspecify.annotations.Nullable;
import towerledger.quantity.VolumeUnit;
import towerledger.tariff.RateVersion.Block;
import towerledger.tariff.RateVersion.BlockTable;
import towerledger.tariff.RateVersion.Charge;
import towerledger.tariff.ScheduleRows.BlockRow;
import towerledger.tariff.ScheduleRows.ChargeRow;
import towerledger.tariff.ScheduleRows.VersionRow;

/**
 * The rows of one version of a schedule, and the version they make.
 *
 * @param version row of rate_schedules.csv
 * @param charges rows of rate_charges.csv
 * @param blocks rows of rate_blocks.csv
 */
record VersionRows(VersionRow version, List<ChargeRow> charges, List<BlockRow> blocks) {

  VersionRows {
    charges = List.copyOf(charges);
    blocks = List.copyOf(blocks);
  }

  VersionRows withCharges(List<ChargeRow> rows) {
    return new VersionRows(version, rows, blocks);
  }

  VersionRows withBlocks(List<BlockRow> rows) {
    return new VersionRows(version, charges, rows);
  }

  /**
   * The version the rows make.
   *
   * @throws IllegalArgumentException when they make none, saying why and how to mend it
   */
  RateVersion assemble() {
    return new RateVersion(
        version.effectiveFrom(),
        VolumeUnit.ofCode(version.billingUnit()),
        version.monthsPerBill() == null ? 1 : version.monthsPerBill(),
        charges.stream().map(VersionRows::charge).toList(),
        tables(),
        version.minimumCharge(),
        share(version.surchargePercent()).orElse(BigDecimal.ZERO),
        share(version.taxPercent()).orElse(BigDecimal.ZERO),
        sewer(),
        credit());
  }

  /** Checks the service and that a water schedule says nothing of sewers. */
  Service service() {
    Service service = Service.ofCode(version.service());
    if (service == Service.WATER
        && (sewer().basis() != SewerRule.Basis.METERED_WATER
            || version.sewerPercent() != null
            || credit().method() != CreditRule.Method.NONE)) {
      throw new IllegalArgumentException(
          "schedule %s bills water; give sewer_basis, sewer_percent and evaporation_credit on the"
                  .formatted(version.schedule())
              + " sewer schedule");
    }
    return service;
  }

  /** Rows of one table of blocks: the same season and meter size. */
  static String tableKey(BlockRow row) {
    return "%s-%s %s".formatted(row.firstMonth(), row.lastMonth(), size(row.meterSizeMm()));
  }

  static String chargeKey(ChargeRow row) {
    return row.charge().strip() + " " + size(row.meterSizeMm());
  }

  /** Whether two block rows say the same, their references aside. */
  static boolean same(BlockRow one, BlockRow other) {
    return tableKey(one).equals(tableKey(other))
        && one.fromUnits().compareTo(other.fromUnits()) == 0
        && one.rate().compareTo(other.rate()) == 0;
  }

  static Charge charge(ChargeRow row) {
    return new Charge(row.charge().strip(), size(row.meterSizeMm()), row.amount());
  }

  private List<BlockTable> tables() {
    Map<String, List<BlockRow>> byTable = new LinkedHashMap<>();
    for (BlockRow row : blocks) {
      byTable.computeIfAbsent(tableKey(row), key -> new ArrayList<>()).add(row);
    }
    List<BlockTable> tables = new ArrayList<>();
    for (List<BlockRow> rows : byTable.values()) {
      BlockRow first = rows.get(0);
      tables.add(
          new BlockTable(
              season(first),
              size(first.meterSizeMm()),
              rows.stream()
                  .sorted(Comparator.comparing(BlockRow::fromUnits))
                  .map(row -> new Block(row.fromUnits(), row.rate()))
                  .toList()));
    }
    return tables;
  }

  static @Nullable Season season(BlockRow row) {
    if (row.firstMonth() == null && row.lastMonth() == null) {
      return null;
    }
    if (row.firstMonth() == null || row.lastMonth() == null) {
      throw new IllegalArgumentException(
          "a season has first_month %s and last_month %s; give both or neither"
              .formatted(row.firstMonth(), row.lastMonth()));
    }
    return new Season(row.firstMonth(), row.lastMonth());
  }

  private static @Nullable MeterSize size(@Nullable Double millimetres) {
    return millimetres == null ? null : MeterSize.ofMillimetres(millimetres);
  }

  private SewerRule sewer() {
    return new SewerRule(
        version.sewerBasis() == null
            ? SewerRule.Basis.METERED_WATER
            : SewerRule.Basis.ofCode(version.sewerBasis()),
        share(version.sewerPercent()).orElse(null),
        version.winterMonths() == null ? null : Season.parse(version.winterMonths()));
  }

  private CreditRule credit() {
    return new CreditRule(
        version.evaporationCredit() == null
            ? CreditRule.Method.NONE
            : CreditRule.Method.ofCode(version.evaporationCredit()),
        share(version.creditPercent()).orElse(null),
        version.creditMinimumUnits(),
        share(version.creditCapPercent()).orElse(null),
        version.creditDeadline() == null ? "" : version.creditDeadline());
  }

  private static Optional<BigDecimal> share(@Nullable BigDecimal percent) {
    return Optional.ofNullable(percent).map(value -> value.movePointLeft(2));
  }

  /** Name of a version for people and history. */
  static String versionName(String schedule, LocalDate effectiveFrom) {
    return schedule + " from " + effectiveFrom;
  }
}
