package towerledger.intake.file;

import java.time.Instant;
import java.util.HashSet;
import java.util.List;
import java.util.Set;
import org.jspecify.annotations.Nullable;
import org.springframework.context.ApplicationEventPublisher;
import org.springframework.stereotype.Component;
import towerledger.bulk.BatchResult.Fate;
import towerledger.intake.csv.Column;
import towerledger.intake.csv.Columns;
import towerledger.intake.csv.Row;
import towerledger.intake.csv.RowProblem;
import towerledger.intake.csv.Twin;
import towerledger.psychrometrics.HumidityRatio;
import towerledger.psychrometrics.StandardAtmosphere;
import towerledger.site.Dependents;
import towerledger.weather.StationCodes;
import towerledger.weather.WeatherTables;

/** {@code weather_hours.csv}: hours of weather stations. */
@Component
class WeatherHoursFile implements FileFormat<WeatherHoursFile.Hour> {

  private static final Columns COLUMNS = new Columns("weather_hours");
  private static final Column STATION = COLUMNS.required("station");
  private static final Column HOUR_START = COLUMNS.required("hour_start");
  private static final Column DRY_BULB =
      COLUMNS.requiredNumber("dry_bulb_f", Twin.FAHRENHEIT, -90, 70);
  private static final Column WET_BULB = COLUMNS.number("wet_bulb_f", Twin.FAHRENHEIT, -90, 70);
  private static final Column DEW_POINT = COLUMNS.number("dew_point_f", Twin.FAHRENHEIT, -120, 70);
  private static final Column HUMIDITY = COLUMNS.number("relative_humidity_percent", 0, 105);
  private static final Column PRESSURE =
      COLUMNS.number("pressure_inhg", Twin.INCHES_OF_MERCURY, 30, 115);

  /** Instruments differ by this much in saturated air, °C. */
  private static final double SATURATION_SLACK_C = 0.5;

  /** An hour of a station, ready for its table. */
  record Hour(@Nullable Object[] row, String station, Instant start) {}

  private final StationCodes stations;
  private final Dependents dependents;
  private final ApplicationEventPublisher events;

  WeatherHoursFile(StationCodes stations, Dependents dependents, ApplicationEventPublisher events) {
    this.stations = stations;
    this.dependents = dependents;
    this.events = events;
  }

  @Override
  public Columns columns() {
    return COLUMNS;
  }

  @Override
  public int order() {
    return 90;
  }

  @Override
  public boolean officeOnly() {
    return true;
  }

  @Override
  public boolean isReadAhead() {
    return true;
  }

  @Override
  public int batchSize() {
    return 10_000;
  }

  @Override
  public Hour read(Row row, Taking taking) {
    String station = row.code(STATION);
    Instant start =
        taking.happened(HOUR_START, row.hour(HOUR_START, taking.directory().stationZone(station)));
    double dryBulb = row.number(DRY_BULB);
    Double wetBulb = row.findNumber(WET_BULB);
    Double dewPoint = row.findNumber(DEW_POINT);
    Double humidity = row.findNumber(HUMIDITY);
    int humidities =
        (wetBulb == null ? 0 : 1) + (dewPoint == null ? 0 : 1) + (humidity == null ? 0 : 1);
    if (humidities != 1) {
      throw RowProblem.of(
          "the hour fills %d of wet_bulb, dew_point and relative_humidity_percent; fill one",
          humidities);
    }
    requireBelow("wet bulb", wetBulb, dryBulb);
    requireBelow("dew point", dewPoint, dryBulb);
    Double pressureKpa = row.findNumber(PRESSURE);
    requireSomeVapour(wetBulb, dryBulb, pressureKpa);
    @Nullable Object[] cells = {station, start, dryBulb, wetBulb, dewPoint, humidity, pressureKpa};
    return new Hour(cells, station, start);
  }

  private static void requireBelow(String what, @Nullable Double value, double dryBulb) {
    if (value != null && value > dryBulb + SATURATION_SLACK_C) {
      throw RowProblem.of(
          "%s of %.1f °C is above the dry bulb of %.1f °C; check the two", what, value, dryBulb);
    }
  }

  private static void requireSomeVapour(
      @Nullable Double wetBulb, double dryBulb, @Nullable Double pressureKpa) {
    double pressurePa = pressureKpa == null ? StandardAtmosphere.pressurePa(0) : pressureKpa * 1000;
    if (wetBulb != null
        && !HumidityRatio.isPossible(dryBulb, Math.min(wetBulb, dryBulb), pressurePa)) {
      throw RowProblem.of(
          "wet bulb of %.1f °C is below what even dry air has at a dry bulb of %.1f °C; check the two and their units",
          wetBulb, dryBulb);
    }
  }

  @Override
  public List<RowFate> take(List<Hour> rows, Taking taking) {
    Set<String> codes = new HashSet<>();
    rows.forEach(hour -> codes.add(hour.station));
    codes.forEach(stations::ensure);
    List<@Nullable Object[]> cells = rows.stream().map(Hour::row).toList();
    List<Fate> fates = taking.load(WeatherTables.HOUR).apply(cells).fates();
    var touched = new TouchedMonths();
    for (String code : codes) {
      var systems = dependents.onStation(code);
      for (int i = 0; i < fates.size(); i++) {
        Hour hour = rows.get(i);
        if (FactStore.isNews(fates.get(i)) && hour.station.equals(code)) {
          for (var placed : systems) {
            touched.add(placed.systemId(), placed.zone(), hour.start);
          }
        }
      }
    }
    touched.publish(events, "weather hours came in");
    return RowFate.ofAll(fates);
  }
}
