package towerledger.intake.file;

import java.util.List;
import org.springframework.stereotype.Component;
import towerledger.intake.csv.Column;
import towerledger.intake.csv.Columns;
import towerledger.intake.csv.Row;
import towerledger.intake.csv.RowProblem;
import towerledger.intake.csv.Twin;
import towerledger.meter.MeterTables;

/** {@code interval_volumes.csv}: volumes of fixed steps, as loggers write them. */
@Component
class IntervalVolumesFile implements FileFormat<Fact> {

  /** Green Button feeds tell intervals of a whole billing period, up to 32 days. */
  private static final int LONGEST_MINUTES = 46_080;

  private static final Columns COLUMNS = new Columns("interval_volumes");
  private static final Column METER = COLUMNS.required("meter");
  private static final Column START = COLUMNS.required("start");
  private static final Column MINUTES = COLUMNS.requiredNumber("minutes", 1, LONGEST_MINUTES);

  /** No cooling-tower main passes 100,000 m³ in a day, or in a month. */
  private static final Column VOLUME =
      COLUMNS.requiredNumber("volume_gal", Twin.GALLONS, 0, 100_000_000);

  private final FactStore facts;

  IntervalVolumesFile(FactStore facts) {
    this.facts = facts;
  }

  @Override
  public Columns columns() {
    return COLUMNS;
  }

  @Override
  public int order() {
    return 110;
  }

  @Override
  public boolean officeOnly() {
    return false;
  }

  @Override
  public boolean isReadAhead() {
    return true;
  }

  @Override
  public int batchSize() {
    return 20_000;
  }

  @Override
  public Fact read(Row row, Taking taking) {
    var meter = taking.directory().meter(row.code(METER));
    var start = taking.happened(START, row.border(START, meter.site().zone()));
    double minutes = row.number(MINUTES);
    if (minutes != Math.rint(minutes)) {
      throw RowProblem.of("minutes of %s is not a whole number", minutes);
    }
    return new Fact(
        MeterTables.interval(
            meter.site().customerId(), meter.meterId(), start, (int) minutes, row.number(VOLUME)),
        meter.systemId(),
        meter.site(),
        start,
        start);
  }

  @Override
  public List<RowFate> take(List<Fact> rows, Taking taking) {
    return facts.take(MeterTables.INTERVAL_VOLUME, rows, taking, "interval volumes came in");
  }
}
