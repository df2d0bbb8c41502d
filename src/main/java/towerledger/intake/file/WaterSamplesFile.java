package towerledger.intake.file;

import java.util.List;
import org.jspecify.annotations.Nullable;
import org.springframework.stereotype.Component;
import towerledger.intake.csv.Column;
import towerledger.intake.csv.Columns;
import towerledger.intake.csv.Row;
import towerledger.intake.csv.RowProblem;
import towerledger.logsheet.LogTables;

/** {@code water_samples.csv}: makeup and basin water as analysed. */
@Component
class WaterSamplesFile implements FileFormat<Fact> {

  private static final Columns COLUMNS = new Columns("water_samples");
  private static final Column SYSTEM = COLUMNS.required("system");
  private static final Column TAKEN_AT = COLUMNS.required("taken_at");
  private static final List<Column> FIGURES =
      List.of(
          COLUMNS.number("makeup_conductivity_us_cm", 0, 200_000),
          COLUMNS.number("basin_conductivity_us_cm", 0, 200_000),
          COLUMNS.number("makeup_chloride_mg_l", 0, 200_000),
          COLUMNS.number("basin_chloride_mg_l", 0, 200_000),
          COLUMNS.number("makeup_calcium_mg_l_caco3", 0, 200_000),
          COLUMNS.number("basin_calcium_mg_l_caco3", 0, 200_000));

  private final FactStore facts;

  WaterSamplesFile(FactStore facts) {
    this.facts = facts;
  }

  @Override
  public Columns columns() {
    return COLUMNS;
  }

  @Override
  public int order() {
    return 120;
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
    @Nullable Object[] cells = new @Nullable Object[3 + FIGURES.size()];
    cells[0] = system.site().customerId();
    cells[1] = system.systemId();
    cells[2] = takenAt;
    boolean tells = false;
    for (int i = 0; i < FIGURES.size(); i++) {
      cells[3 + i] = row.findNumber(FIGURES.get(i));
      tells |= cells[3 + i] != null;
    }
    if (!tells) {
      throw new RowProblem("the sample tells no figure; fill at least one");
    }
    return new Fact(cells, system.systemId(), system.site(), takenAt, takenAt);
  }

  @Override
  public List<RowFate> take(List<Fact> rows, Taking taking) {
    return facts.take(LogTables.WATER_SAMPLE, rows, taking, "water samples came in");
  }
}
