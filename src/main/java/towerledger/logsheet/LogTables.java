package towerledger.logsheet;

import static towerledger.bulk.BulkColumn.alternative;
import static towerledger.bulk.BulkColumn.companion;
import static towerledger.bulk.BulkColumn.key;
import static towerledger.bulk.BulkColumn.value;

import java.util.ArrayList;
import java.util.List;
import towerledger.bulk.BulkColumn;
import towerledger.bulk.BulkTable;
import towerledger.bulk.BulkType;
import towerledger.bulk.Corrections;

/**
 * The tables that log rows are loaded into. Each begins with customer, system and time; then come
 * the figures under the SI names of the interchange files.
 */
public final class LogTables {

  public static final BulkTable WATER_SAMPLE =
      log(
          "logsheet_water_sample",
          "water_sample",
          List.of(key("taken_at", BulkType.INSTANT)),
          numbers(
              "makeup_conductivity_us_cm",
              "basin_conductivity_us_cm",
              "makeup_chloride_mg_l",
              "basin_chloride_mg_l",
              "makeup_calcium_mg_l_caco3",
              "basin_calcium_mg_l_caco3"));

  public static final BulkTable PRESSURE =
      log(
          "logsheet_pressure",
          "pressure",
          List.of(key("taken_at", BulkType.INSTANT)),
          numbers("supply_kpa", "valve_inlet_kpa"));

  /** One kind of evidence a row: another kind for the same span corrects it. */
  public static final BulkTable HEAT_LOAD =
      log(
          "logsheet_heat_load",
          "heat_load",
          List.of(key("start_at", BulkType.INSTANT), key("end_at", BulkType.INSTANT)),
          List.of(
              alternative("heat_rejected_gj", BulkType.DOUBLE),
              alternative("chilled_water_kwh", BulkType.DOUBLE),
              value("kw_per_ton", BulkType.DOUBLE),
              alternative("chiller_kwh", BulkType.DOUBLE),
              alternative("running_hours", BulkType.DOUBLE),
              alternative("average_load_percent", BulkType.DOUBLE),
              alternative("hot_water_c", BulkType.DOUBLE),
              alternative("cold_water_c", BulkType.DOUBLE),
              alternative("water_flow_l_s", BulkType.DOUBLE),
              value("error_percent", BulkType.DOUBLE)));

  public static final BulkTable VISIT =
      log(
          "logsheet_visit",
          "visit",
          List.of(key("visited_at", BulkType.INSTANT)),
          List.of(
              value("events", BulkType.TEXT),
              value("drained_l", BulkType.DOUBLE),
              value("findings", BulkType.TEXT),
              value("basin_conductivity_handheld_us_cm", BulkType.DOUBLE),
              value("basin_conductivity_controller_us_cm", BulkType.DOUBLE),
              value("basin_temperature_c", BulkType.DOUBLE),
              value("observation", BulkType.TEXT),
              value("work_done", BulkType.TEXT)));

  private LogTables() {}

  private static List<BulkColumn> numbers(String... names) {
    return List.of(names).stream().map(name -> value(name, BulkType.DOUBLE)).toList();
  }

  private static BulkTable log(
      String table, String kind, List<BulkColumn> times, List<BulkColumn> figures) {
    var columns = new ArrayList<BulkColumn>();
    columns.add(companion("customer_id", BulkType.BIGINT));
    columns.add(key("system_id", BulkType.BIGINT));
    columns.addAll(times);
    columns.addAll(figures);
    return new BulkTable(
        table,
        true,
        Corrections.json(
            "logsheet_correction",
            List.of("customer_id", "system_id"),
            List.of(new Corrections.Renamed(times.get(0).name(), "at")),
            List.of(new Corrections.Constant("log_kind", kind))),
        columns);
  }
}
