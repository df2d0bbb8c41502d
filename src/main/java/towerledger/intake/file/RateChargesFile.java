package towerledger.intake.file;

import java.util.List;
import org.springframework.stereotype.Component;
import towerledger.intake.csv.Column;
import towerledger.intake.csv.Columns;
import towerledger.intake.csv.Row;
import towerledger.intake.csv.Twin;
import towerledger.tariff.ScheduleRows;
import towerledger.tariff.ScheduleRows.ChargeRow;

/** {@code rate_charges.csv}: amounts a bill carries whatever the use. */
@Component
class RateChargesFile implements FileFormat<ChargeRow> {

  private static final Columns COLUMNS = new Columns("rate_charges");
  private static final Column SCHEDULE = COLUMNS.required("schedule");
  private static final Column EFFECTIVE_FROM = COLUMNS.required("effective_from");
  private static final Column CHARGE = COLUMNS.required("charge");
  private static final Column SIZE = COLUMNS.number("meter_size_in", Twin.INCHES, 5, 3000);
  private static final Column AMOUNT = COLUMNS.requiredNumber("amount", -1e9, 1e9);

  private final RateTaking rates;

  RateChargesFile(RateTaking rates) {
    this.rates = rates;
  }

  @Override
  public Columns columns() {
    return COLUMNS;
  }

  @Override
  public int order() {
    return 71;
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
  public ChargeRow read(Row row, Taking taking) {
    return new ChargeRow(
        taking.nextReference(),
        row.code(SCHEDULE),
        row.day(EFFECTIVE_FROM),
        row.text(CHARGE, 100),
        row.findNumber(SIZE),
        row.decimal(AMOUNT, 6));
  }

  @Override
  public List<RowFate> take(List<ChargeRow> rows, Taking taking) {
    return rates.take(
        new ScheduleRows(List.of(), rows, List.of()), rows, ChargeRow::reference, taking);
  }
}
