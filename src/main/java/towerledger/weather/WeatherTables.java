package towerledger.weather;

import static towerledger.bulk.BulkColumn.alternative;
import static towerledger.bulk.BulkColumn.key;
import static towerledger.bulk.BulkColumn.value;

import java.util.List;
import towerledger.bulk.BulkTable;
import towerledger.bulk.BulkType;
import towerledger.bulk.Corrections;

/** The table that weather hours are loaded into. */
public final class WeatherTables {

  /** Hours of stations; the humidity as it was given. */
  public static final BulkTable HOUR =
      BulkTable.of(
          "weather_hour",
          Corrections.json(
              "weather_correction", List.of("station", "hour_start"), List.of(), List.of()),
          key("station", BulkType.TEXT),
          key("hour_start", BulkType.INSTANT),
          value("dry_bulb_c", BulkType.DOUBLE),
          alternative("wet_bulb_c", BulkType.DOUBLE),
          alternative("dew_point_c", BulkType.DOUBLE),
          alternative("relative_humidity_percent", BulkType.DOUBLE),
          value("pressure_kpa", BulkType.DOUBLE));

  private WeatherTables() {}
}
