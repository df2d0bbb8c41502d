package towerledger.intake.file;

import java.util.Arrays;
import java.util.List;
import java.util.Locale;
import org.jspecify.annotations.Nullable;
import org.springframework.stereotype.Component;
import towerledger.intake.csv.Column;
import towerledger.intake.csv.Columns;
import towerledger.intake.csv.Row;
import towerledger.intake.csv.Twin;
import towerledger.logsheet.LogTables;
import towerledger.logsheet.VisitCodes;

/** {@code visits.csv}: what a technician found and did. */
@Component
class VisitsFile implements FileFormat<Fact> {

  private static final Columns COLUMNS = new Columns("visits");
  private static final Column SYSTEM = COLUMNS.required("system");
  private static final Column VISITED_AT = COLUMNS.required("visited_at");
  private static final Column EVENTS = COLUMNS.optional("events");
  private static final Column DRAINED =
      COLUMNS.number("drained_gal", Twin.GALLONS, 0, 1_000_000_000);
  private static final Column FINDINGS = COLUMNS.optional("findings");
  private static final Column HANDHELD =
      COLUMNS.number("basin_conductivity_handheld_us_cm", 0, 200_000);
  private static final Column CONTROLLER =
      COLUMNS.number("basin_conductivity_controller_us_cm", 0, 200_000);
  private static final Column BASIN =
      COLUMNS.number("basin_temperature_f", Twin.FAHRENHEIT, -5, 99);
  private static final Column OBSERVATION = COLUMNS.optional("observation");
  private static final Column WORK_DONE = COLUMNS.optional("work_done");

  private final FactStore facts;

  VisitsFile(FactStore facts) {
    this.facts = facts;
  }

  @Override
  public Columns columns() {
    return COLUMNS;
  }

  @Override
  public int order() {
    return 150;
  }

  @Override
  public boolean officeOnly() {
    return false;
  }

  @Override
  public int batchSize() {
    return 1_000;
  }

  @Override
  public Fact read(Row row, Taking taking) {
    var system = taking.directory().system(row.code(SYSTEM));
    var visitedAt = taking.happened(VISITED_AT, row.moment(VISITED_AT, system.site().zone()));
    @Nullable Object[] cells = {
      system.site().customerId(),
      system.systemId(),
      visitedAt,
      events(row.findText(EVENTS, 500)),
      row.findNumber(DRAINED),
      findings(row.findText(FINDINGS, 1000)),
      row.findNumber(HANDHELD),
      row.findNumber(CONTROLLER),
      row.findNumber(BASIN),
      row.findText(OBSERVATION, 4000),
      row.findText(WORK_DONE, 4000)
    };
    return new Fact(cells, system.systemId(), system.site(), visitedAt, visitedAt);
  }

  private static @Nullable String events(@Nullable String cell) {
    if (cell == null) {
      return null;
    }
    VisitCodes.parseEvents(cell);
    return String.join(";", codes(cell));
  }

  private static @Nullable String findings(@Nullable String cell) {
    if (cell == null) {
      return null;
    }
    VisitCodes.parseFindings(cell);
    return String.join(";", codes(cell));
  }

  private static List<String> codes(String cell) {
    return Arrays.stream(cell.split(";"))
        .map(code -> code.strip().toLowerCase(Locale.ROOT))
        .filter(code -> !code.isEmpty())
        .toList();
  }

  @Override
  public List<RowFate> take(List<Fact> rows, Taking taking) {
    return facts.take(LogTables.VISIT, rows, taking, "visits came in");
  }
}
