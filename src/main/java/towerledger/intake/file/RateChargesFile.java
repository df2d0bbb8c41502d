package towerledger.intake.file;

import java.util.List;
import org.jspecify.annotations.Nullable;
import org.springframework.stereotype.Component;
import towerledger.bulk.BatchResult.Fate;
import towerledger.intake.csv.Column;
import towerledger.intake.csv.Columns;
import towerledger.intake.csv.Row;
import towerledger.intake.csv.Twin;
import towerledger.tariff.TariffTables;

/** {@code rate_charges.csv}: amounts a bill carries whatever the use. */
@Component
class RateChargesFile implements FileFormat<RateRow> {

  private static final Columns COLUMNS = new Columns("rate_charges");
  private static final Column SCHEDULE = COLUMNS.required("schedule");
  private static final Column EFFECTIVE_FROM = COLUMNS.required("effective_from");
  private static final Column CHARGE = COLUMNS.required("charge");
  private static final Column SIZE = COLUMNS.number("meter_size_in", Twin.INCHES, 5, 3000);
  private static final Column AMOUNT = COLUMNS.requiredNumber("amount", -1e9, 1e9);

  private final RateStore rates;

  RateChargesFile(RateStore rates) {
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
  public RateRow read(Row row, Taking taking) {
    String schedule = row.code(SCHEDULE);
    var from = row.day(EFFECTIVE_FROM);
    @Nullable Object[] cells = {
      schedule, from, row.text(CHARGE, 100), row.findNumber(SIZE), row.decimal(AMOUNT, 6)
    };
    return new RateRow(cells, schedule, from);
  }

  @Override
  public List<Fate> take(List<RateRow> rows, Taking taking) {
    return rates.take(TariffTables.CHARGE, "rate charge", rows, taking);
  }
}
