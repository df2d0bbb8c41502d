package towerledger.intake.file;

import java.util.List;
import org.springframework.stereotype.Component;
import towerledger.intake.csv.Column;
import towerledger.intake.csv.Columns;
import towerledger.intake.csv.Row;
import towerledger.intake.csv.RowProblem;
import towerledger.intake.csv.Twin;
import towerledger.tariff.ScheduleRows;
import towerledger.tariff.ScheduleRows.BlockRow;

/** {@code rate_blocks.csv}: what a unit costs, by use, season and meter size. */
@Component
class RateBlocksFile implements FileFormat<BlockRow> {

  private static final Columns COLUMNS = new Columns("rate_blocks");
  private static final Column SCHEDULE = COLUMNS.required("schedule");
  private static final Column EFFECTIVE_FROM = COLUMNS.required("effective_from");
  private static final Column FIRST_MONTH = COLUMNS.number("first_month", 1, 12);
  private static final Column LAST_MONTH = COLUMNS.number("last_month", 1, 12);
  private static final Column SIZE = COLUMNS.number("meter_size_in", Twin.INCHES, 5, 3000);
  private static final Column FROM_UNITS = COLUMNS.requiredNumber("from_units", 0, 1e12);
  private static final Column RATE = COLUMNS.requiredNumber("rate", -1e6, 1e6);

  private final RateTaking rates;

  RateBlocksFile(RateTaking rates) {
    this.rates = rates;
  }

  @Override
  public Columns columns() {
    return COLUMNS;
  }

  @Override
  public int order() {
    return 72;
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
  public BlockRow read(Row row, Taking taking) {
    Integer firstMonth = row.findInteger(FIRST_MONTH);
    Integer lastMonth = row.findInteger(LAST_MONTH);
    if ((firstMonth == null) != (lastMonth == null)) {
      throw new RowProblem(
          "a season needs both first_month and last_month; fill both, or neither for all year");
    }
    return new BlockRow(
        taking.nextReference(),
        row.code(SCHEDULE),
        row.day(EFFECTIVE_FROM),
        firstMonth,
        lastMonth,
        row.findNumber(SIZE),
        row.decimal(FROM_UNITS, 6),
        row.decimal(RATE, 8));
  }

  @Override
  public List<RowFate> take(List<BlockRow> rows, Taking taking) {
    return rates.take(
        new ScheduleRows(List.of(), List.of(), rows), rows, BlockRow::reference, taking);
  }
}
