package towerledger.intake.file;

import java.util.List;
import org.jspecify.annotations.Nullable;
import org.springframework.stereotype.Component;
import towerledger.bulk.BatchResult.Fate;
import towerledger.intake.csv.Column;
import towerledger.intake.csv.Columns;
import towerledger.intake.csv.Row;
import towerledger.quantity.VolumeUnit;
import towerledger.tariff.TariffTables;

/** {@code rate_schedules.csv}: versions of water and sewer rates by the day they begin. */
@Component
class RateSchedulesFile implements FileFormat<RateRow> {

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

  private final RateStore rates;

  RateSchedulesFile(RateStore rates) {
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
  public RateRow read(Row row, Taking taking) {
    String schedule = row.code(SCHEDULE);
    var from = row.day(EFFECTIVE_FROM);
    @Nullable Object[] cells = {
      schedule,
      row.choice(SERVICE, SERVICES),
      from,
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
      row.findText(DEADLINE, 500),
      taking.startedAt()
    };
    return new RateRow(cells, schedule, from);
  }

  @Override
  public List<Fate> take(List<RateRow> rows, Taking taking) {
    return rates.take(TariffTables.SCHEDULE, "rate schedule", rows, taking);
  }
}
