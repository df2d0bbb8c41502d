package towerledger.tariff;

import java.sql.ResultSet;
import java.sql.SQLException;
import java.time.Clock;
import java.time.LocalDate;
import java.time.OffsetDateTime;
import java.time.ZoneOffset;
import java.util.ArrayList;
import java.util.LinkedHashMap;
import java.util.List;
import java.util.Map;
import java.util.Optional;
import org.springframework.jdbc.core.simple.JdbcClient;
import org.springframework.stereotype.Repository;
import towerledger.quantity.VolumeUnit;
import towerledger.tariff.ScheduleRows.BlockRow;
import towerledger.tariff.ScheduleRows.ChargeRow;
import towerledger.tariff.ScheduleRows.VersionRow;

/** The tables tariff_schedule, tariff_charge and tariff_block. */
@Repository
class ScheduleTable {

  private static final String INSERT =
      """
      INSERT INTO tariff_schedule (schedule, effective_from, service, billing_unit, name,
        months_per_bill, minimum_charge, surcharge_percent, tax_percent, sewer_basis,
        sewer_percent, winter_months, evaporation_credit, credit_percent, credit_minimum_units,
        credit_cap_percent, credit_deadline, created_at)
      VALUES (:schedule, :from, :service, :unit, :name, :months, :minimum, :surcharge, :tax,
        :basis, :sewerPercent, :winter, :credit, :creditPercent, :creditMinimum, :creditCap,
        :deadline, :now)""";

  private static final String UPDATE =
      """
      UPDATE tariff_schedule SET service = :service, billing_unit = :unit, name = :name,
        months_per_bill = :months, minimum_charge = :minimum, surcharge_percent = :surcharge,
        tax_percent = :tax, sewer_basis = :basis, sewer_percent = :sewerPercent,
        winter_months = :winter, evaporation_credit = :credit, credit_percent = :creditPercent,
        credit_minimum_units = :creditMinimum, credit_cap_percent = :creditCap,
        credit_deadline = :deadline, version = version + 1
      WHERE schedule = :schedule AND effective_from = :from""";

  private final JdbcClient jdbc;
  private final Clock clock;

  ScheduleTable(JdbcClient jdbc, Clock clock) {
    this.jdbc = jdbc;
    this.clock = clock;
  }

  List<String> listCodes() {
    return jdbc.sql("SELECT DISTINCT schedule FROM tariff_schedule ORDER BY schedule")
        .query(String.class)
        .list();
  }

  /** The versions of a schedule by effective day; empty when there is none. */
  List<VersionRows> list(String schedule) {
    Map<LocalDate, List<ChargeRow>> charges = new LinkedHashMap<>();
    jdbc.sql("SELECT * FROM tariff_charge WHERE schedule = ? ORDER BY id")
        .param(schedule)
        .query(ScheduleTable::charge)
        .list()
        .forEach(row -> add(charges, row.effectiveFrom(), row));
    Map<LocalDate, List<BlockRow>> blocks = new LinkedHashMap<>();
    jdbc.sql(
            """
            SELECT * FROM tariff_block WHERE schedule = ?
            ORDER BY meter_size_mm, first_month, from_units, id""")
        .param(schedule)
        .query(ScheduleTable::block)
        .list()
        .forEach(row -> add(blocks, row.effectiveFrom(), row));
    return jdbc
        .sql("SELECT * FROM tariff_schedule WHERE schedule = ? ORDER BY effective_from")
        .param(schedule)
        .query(ScheduleTable::version)
        .list()
        .stream()
        .map(
            row ->
                new VersionRows(
                    row,
                    charges.getOrDefault(row.effectiveFrom(), List.of()),
                    blocks.getOrDefault(row.effectiveFrom(), List.of())))
        .toList();
  }

  Optional<VersionRows> find(String schedule, LocalDate effectiveFrom) {
    return list(schedule).stream()
        .filter(rows -> rows.version().effectiveFrom().equals(effectiveFrom))
        .findFirst();
  }

  /** Puts the rows of a version in the place of those stored. */
  void replace(VersionRows rows) {
    VersionRow version = rows.version();
    remove("tariff_block", version);
    remove("tariff_charge", version);
    int updated = write(UPDATE, version);
    if (updated == 0) {
      write(INSERT, version);
    }
    for (ChargeRow row : rows.charges()) {
      jdbc.sql(
              """
              INSERT INTO tariff_charge (schedule, effective_from, charge, meter_size_mm, amount)
              VALUES (?, ?, ?, ?, ?)""")
          .param(row.schedule())
          .param(row.effectiveFrom())
          .param(row.charge().strip())
          .param(row.meterSizeMm())
          .param(row.amount())
          .update();
    }
    for (BlockRow row : rows.blocks()) {
      jdbc.sql(
              """
              INSERT INTO tariff_block (schedule, effective_from, first_month, last_month,
                meter_size_mm, from_units, rate)
              VALUES (?, ?, ?, ?, ?, ?, ?)""")
          .param(row.schedule())
          .param(row.effectiveFrom())
          .param(row.firstMonth())
          .param(row.lastMonth())
          .param(row.meterSizeMm())
          .param(row.fromUnits())
          .param(row.rate())
          .update();
    }
  }

  private int write(String sql, VersionRow row) {
    var statement =
        jdbc.sql(sql)
            .param("schedule", row.schedule())
            .param("from", row.effectiveFrom())
            .param("service", Service.ofCode(row.service()).code())
            .param("unit", VolumeUnit.ofCode(row.billingUnit()).code())
            .param("name", row.name())
            .param("months", row.monthsPerBill())
            .param("minimum", row.minimumCharge())
            .param("surcharge", row.surchargePercent())
            .param("tax", row.taxPercent())
            .param("basis", row.sewerBasis())
            .param("sewerPercent", row.sewerPercent())
            .param("winter", row.winterMonths())
            .param("credit", row.evaporationCredit())
            .param("creditPercent", row.creditPercent())
            .param("creditMinimum", row.creditMinimumUnits())
            .param("creditCap", row.creditCapPercent())
            .param("deadline", row.creditDeadline());
    return sql.equals(INSERT)
        ? statement.param("now", OffsetDateTime.ofInstant(clock.instant(), ZoneOffset.UTC)).update()
        : statement.update();
  }

  private void remove(String table, VersionRow version) {
    jdbc.sql("DELETE FROM " + table + " WHERE schedule = ? AND effective_from = ?")
        .param(version.schedule())
        .param(version.effectiveFrom())
        .update();
  }

  private static <T> void add(Map<LocalDate, List<T>> byDay, LocalDate day, T row) {
    byDay.computeIfAbsent(day, key -> new ArrayList<>()).add(row);
  }

  private static VersionRow version(ResultSet row, int number) throws SQLException {
    return new VersionRow(
        "",
        row.getString("schedule"),
        row.getString("service"),
        row.getObject("effective_from", LocalDate.class),
        row.getString("billing_unit"),
        row.getString("name"),
        row.getObject("months_per_bill", Integer.class),
        row.getBigDecimal("minimum_charge"),
        row.getBigDecimal("surcharge_percent"),
        row.getBigDecimal("tax_percent"),
        row.getString("sewer_basis"),
        row.getBigDecimal("sewer_percent"),
        row.getString("winter_months"),
        row.getString("evaporation_credit"),
        row.getBigDecimal("credit_percent"),
        row.getBigDecimal("credit_minimum_units"),
        row.getBigDecimal("credit_cap_percent"),
        row.getString("credit_deadline"));
  }

  private static ChargeRow charge(ResultSet row, int number) throws SQLException {
    return new ChargeRow(
        "",
        row.getString("schedule"),
        row.getObject("effective_from", LocalDate.class),
        row.getString("charge"),
        row.getObject("meter_size_mm", Double.class),
        row.getBigDecimal("amount"));
  }

  private static BlockRow block(ResultSet row, int number) throws SQLException {
    return new BlockRow(
        "",
        row.getString("schedule"),
        row.getObject("effective_from", LocalDate.class),
        row.getObject("first_month", Integer.class),
        row.getObject("last_month", Integer.class),
        row.getObject("meter_size_mm", Double.class),
        row.getBigDecimal("from_units"),
        row.getBigDecimal("rate"));
  }
}
