package towerledger.intake.file;

import java.util.List;
import org.springframework.stereotype.Component;
import towerledger.intake.csv.Column;
import towerledger.intake.csv.Columns;
import towerledger.intake.csv.Row;
import towerledger.quantity.VolumeUnit;
import towerledger.tariff.ScheduleRows;
import towerledger.tariff.ScheduleRows.VersionRow;

/** {@code rate_schedules.csv}: versions of water and sewer rates by the day they begin. */
@Component
class RateSchedulesFile implements FileFormat<VersionRow> {

  static final List<String> SERVICES = List.of("water", "sewer");

  private static final Columns COLUMNS = new Columns("rate_schedules");
  private static final Column SCHEDULE = COLUMNS.required("schedule");
  private static final Column SERVICE = COLUMNS.required("service");
  private static final Column EFFECTIVE_FROM = COLUMNS.required("effective_from");
  private static final Column BILLING_UNIT = COLUMNS.required("billing_unit");
  private static final Column NAME = COLUMNS.optional("name");
  private static final Column MONTHS = COLUMNS.number("months_per_bill", 1, 12);
  private static final Column MINIMUM = COLUMNS.number("minimum_charge", 0, 1e9);
  private static final Column SURCHARGE = COLUMNS.number("surcharge_percent", -100, 1000);
  private static final Column TAX = COLUMNS.number("tax_percent", 0, 100);
  private static final Column SEWER_BASIS = COLUMNS.optional("sewer_basis");
  private static final Column SEWER_PERCENT = COLUMNS.number("sewer_percent", 0, 100);
  private static final Column WINTER = COLUMNS.optional("winter_months");
  private static final Column CREDIT = COLUMNS.optional("evaporation_credit");
  private static final Column CREDIT_PERCENT = COLUMNS.number("credit_percent", 0, 100);
  private static final Column CREDIT_MINIMUM = COLUMNS.number("credit_minimum_units", 0, 1e9);
  private static final Column CREDIT_CAP = COLUMNS.number("credit_cap_percent", 0, 100);
  private static final Column DEADLINE = COLUMNS.optional("credit_deadline");

  private static final List<String> BASES =
      List.of("metered-water", "percent-of-water", "return-meter", "winter-average");
  private static final List<String> CREDITS =
      List.of(
          "none",
          "makeup-minus-blowdown",
          "credit-meter",
          "percent-of-makeup",
          "engineered",
          "blowdown-as-sewer");

  private final RateTaking rates;

  RateSchedulesFile(RateTaking rates) {
    this.rates = rates;
  }

  @Override
  public Columns columns() {
    return COLUMNS;
  }

  @Override
  public int order() {
    return 70;
  }

  @Override
  public boolean officeOnly() {
    return true;
  }

  @Override
  public int batchSize() {
    return RateTaking.ROWS_TOGETHER;
  }

  @Override
  public VersionRow read(Row row, Taking taking) {
    return new VersionRow(
        taking.nextReference(),
        row.code(SCHEDULE),
        row.choice(SERVICE, SERVICES),
        row.day(EFFECTIVE_FROM),
        VolumeUnit.ofCode(row.text(BILLING_UNIT, 40)).code(),
        row.findText(NAME, 200),
        row.findInteger(MONTHS),
        row.findDecimal(MINIMUM, 6),
        row.findDecimal(SURCHARGE, 6),
        row.findDecimal(TAX, 6),
        row.findChoice(SEWER_BASIS, BASES),
        row.findDecimal(SEWER_PERCENT, 6),
        row.findMatching(WINTER, MonthsForm.MONTHS, MonthsForm.MONTHS_IN_WORDS),
        row.findChoice(CREDIT, CREDITS),
        row.findDecimal(CREDIT_PERCENT, 6),
        row.findDecimal(CREDIT_MINIMUM, 6),
        row.findDecimal(CREDIT_CAP, 6),
        row.findText(DEADLINE, 500));
  }

  @Override
  public List<RowFate> take(List<VersionRow> rows, Taking taking) {
    return rates.take(
        new ScheduleRows(rows, List.of(), List.of()), rows, VersionRow::reference, taking);
  }
}
