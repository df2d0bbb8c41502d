package towerledger.intake.file;

import java.time.Duration;
import java.util.List;
import org.jspecify.annotations.Nullable;
import org.springframework.stereotype.Component;
import towerledger.intake.csv.Column;
import towerledger.intake.csv.Columns;
import towerledger.intake.csv.Row;
import towerledger.intake.csv.RowProblem;
import towerledger.intake.csv.Twin;
import towerledger.logsheet.HeatLoad;
import towerledger.logsheet.LogTables;

/** {@code heat_loads.csv}: evidence of the heat a system rejected over a span of time. */
@Component
class HeatLoadsFile implements FileFormat<Fact> {

  private static final Columns COLUMNS = new Columns("heat_loads");
  private static final Column SYSTEM = COLUMNS.required("system");
  private static final Column START = COLUMNS.required("start");
  private static final Column END = COLUMNS.required("end");
  private static final Column REJECTED =
      COLUMNS.number("heat_rejected_mmbtu", Twin.MILLION_BTU, 0, 10_000_000);
  private static final Column CHILLED_WATER =
      COLUMNS.number("chilled_water_ton_hours", Twin.TON_HOURS, 0, 10_000_000_000.0);
  private static final Column KW_PER_TON = COLUMNS.number("kw_per_ton", 0.05, 10);
  private static final Column CHILLER_KWH = COLUMNS.number("chiller_kwh", 0, 1_000_000_000.0);
  private static final Column RUNNING_HOURS = COLUMNS.number("running_hours", 0, 9_000);
  private static final Column AVERAGE_LOAD = COLUMNS.number("average_load_percent", 0, 200);
  private static final Column HOT_WATER = COLUMNS.number("hot_water_f", Twin.FAHRENHEIT, 0, 99);
  private static final Column COLD_WATER = COLUMNS.number("cold_water_f", Twin.FAHRENHEIT, 0, 99);
  private static final Column WATER_FLOW =
      COLUMNS.number("water_flow_gpm", Twin.GALLONS_PER_MINUTE, 0, 100_000);
  private static final Column ERROR = COLUMNS.number("error_percent", 0, 200);

  private static final Duration LONGEST = Duration.ofDays(370);

  private final FactStore facts;

  HeatLoadsFile(FactStore facts) {
    this.facts = facts;
  }

  @Override
  public Columns columns() {
    return COLUMNS;
  }

  @Override
  public int order() {
    return 140;
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
    var start = row.border(START, system.site().zone()).instant();
    var end = taking.happened(END, row.border(END, system.site().zone()));
    if (!end.isAfter(start)) {
      throw RowProblem.of(
          "end %s is not after start %s; the end is the first instant or day not included",
          end, start);
    }
    if (Duration.between(start, end).compareTo(LONGEST) > 0) {
      throw RowProblem.of(
          "the span from %s to %s is longer than a year; give it month by month or finer",
          start, end);
    }
    requireOneGroup(row);
    @Nullable Object[] cells = {
      system.site().customerId(),
      system.systemId(),
      start,
      end,
      row.findNumber(REJECTED),
      row.findNumber(CHILLED_WATER),
      row.findNumber(KW_PER_TON),
      row.findNumber(CHILLER_KWH),
      row.findNumber(RUNNING_HOURS),
      row.findNumber(AVERAGE_LOAD),
      row.findNumber(HOT_WATER),
      row.findNumber(COLD_WATER),
      row.findNumber(WATER_FLOW),
      row.findNumber(ERROR)
    };
    return new Fact(cells, system.systemId(), system.site(), start, end.minusNanos(1000));
  }

  private static void requireOneGroup(Row row) {
    boolean rejected = row.tells(REJECTED);
    boolean chilledWater = row.tells(CHILLED_WATER);
    boolean electricity = row.tells(CHILLER_KWH);
    boolean running = row.tells(RUNNING_HOURS);
    boolean temperatures = row.tells(HOT_WATER) || row.tells(COLD_WATER) || row.tells(WATER_FLOW);
    int groups = 0;
    for (boolean group :
        new boolean[] {rejected, chilledWater, electricity, running, temperatures}) {
      groups += group ? 1 : 0;
    }
    if (groups != 1) {
      throw RowProblem.of(
          "the row fills %d kinds of evidence; fill one: heat_rejected, or chilled_water_ton_hours,"
              + " or chiller_kwh with kw_per_ton, or running_hours with average_load_percent, or"
              + " hot_water, cold_water and water_flow",
          groups);
    }
    requireWith(electricity, row, KW_PER_TON, "chiller_kwh", "kw_per_ton");
    requireWith(running, row, AVERAGE_LOAD, "running_hours", "average_load_percent");
    if (temperatures && !(row.tells(HOT_WATER) && row.tells(COLD_WATER) && row.tells(WATER_FLOW))) {
      throw new RowProblem(
          "heat from temperatures needs hot_water, cold_water and water_flow; fill all three");
    }
    refuseExchanged(
        row.findNumber(HOT_WATER), row.findNumber(COLD_WATER), row.findNumber(WATER_FLOW));
  }

  private static void refuseExchanged(
      @Nullable Double hot, @Nullable Double cold, @Nullable Double flow) {
    if (hot != null && cold != null && flow != null && HeatLoad.exchanged(hot, cold, flow)) {
      throw RowProblem.of(
          "hot water of %.1f °C is below the cold water of %.1f °C; check whether the two were exchanged",
          hot, cold);
    }
  }

  private static void requireWith(
      boolean given, Row row, Column partner, String name, String partnerName) {
    if (given && !row.tells(partner)) {
      throw RowProblem.of("%s needs %s beside it; fill it", name, partnerName);
    }
  }

  @Override
  public List<RowFate> take(List<Fact> rows, Taking taking) {
    return facts.take(LogTables.HEAT_LOAD, rows, taking, "heat loads came in");
  }
}
