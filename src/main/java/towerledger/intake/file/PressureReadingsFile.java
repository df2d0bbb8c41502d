package towerledger.intake.file;

import java.util.List;
import org.jspecify.annotations.Nullable;
import org.springframework.stereotype.Component;
import towerledger.intake.csv.Column;
import towerledger.intake.csv.Columns;
import towerledger.intake.csv.Row;
import towerledger.intake.csv.RowProblem;
import towerledger.intake.csv.Twin;
import towerledger.logsheet.LogTables;

/** {@code pressure_readings.csv}: supply pressure before and after the regulator. */
@Component
class PressureReadingsFile implements FileFormat<Fact> {

  private static final Columns COLUMNS = new Columns("pressure_readings");
  private static final Column SYSTEM = COLUMNS.required("system");
  private static final Column TAKEN_AT = COLUMNS.required("taken_at");
  private static final Column SUPPLY = COLUMNS.number("supply_psi", Twin.PSI, 0, 10_000);
  private static final Column VALVE_INLET = COLUMNS.number("valve_inlet_psi", Twin.PSI, 0, 10_000);

  private final FactStore facts;

  PressureReadingsFile(FactStore facts) {
    this.facts = facts;
  }

  @Override
  public Columns columns() {
    return COLUMNS;
  }

  @Override
  public int order() {
    return 130;
  }

  @Override
  public boolean officeOnly() {
    return false;
  }

  @Override
  public int batchSize() {
    return 5_000;
  }

  @Override
  public Fact read(Row row, Taking taking) {
    var system = taking.directory().system(row.code(SYSTEM));
    var takenAt = taking.happened(TAKEN_AT, row.moment(TAKEN_AT, system.site().zone()));
    Double supply = row.findNumber(SUPPLY);
    Double valveInlet = row.findNumber(VALVE_INLET);
    if (supply == null && valveInlet == null) {
      throw new RowProblem("the row tells neither supply nor valve inlet pressure; fill one");
    }
    @Nullable Object[] cells = {
      system.site().customerId(), system.systemId(), takenAt, supply, valveInlet
    };
    return new Fact(cells, system.systemId(), system.site(), takenAt, takenAt);
  }

  @Override
  public List<RowFate> take(List<Fact> rows, Taking taking) {
    return facts.take(LogTables.PRESSURE, rows, taking, "pressure readings came in");
  }
}
