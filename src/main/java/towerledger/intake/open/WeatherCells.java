package towerledger.intake.open;

import java.math.BigDecimal;
import java.util.List;
import java.util.OptionalDouble;
import towerledger.weather.WeatherRow;
import towerledger.weather.WeatherSink;

/** Hours of a weather file as rows of {@code weather_hours.csv}. */
final class WeatherCells implements WeatherSink {

  static final String FILE = "weather_hours";

  static final List<String> COLUMNS =
      List.of(
          "station",
          "hour_start",
          "dry_bulb_c",
          "wet_bulb_c",
          "dew_point_c",
          "relative_humidity_percent",
          "pressure_kpa");

  private static final int LONGEST_CODE = 40;
  private static final BigDecimal PASCALS_PER_KILOPASCAL = BigDecimal.valueOf(1000);

  private final String station;
  private final boolean withPressure;
  private final OpenFormat.Sink sink;

  WeatherCells(String station, boolean withPressure, OpenFormat.Sink sink) {
    this.station = station;
    this.withPressure = withPressure;
    this.sink = sink;
  }

  @Override
  public void hour(long line, WeatherRow row) {
    sink.row(
        line,
        List.of(
            station,
            row.hourStart().toString(),
            plain(OptionalDouble.of(row.dryBulbC())),
            plain(row.wetBulbC()),
            plain(row.dewPointC()),
            plain(row.relativeHumidityPercent()),
            withPressure && row.pressurePa().isPresent()
                ? BigDecimal.valueOf(row.pressurePa().getAsDouble())
                    .divide(PASCALS_PER_KILOPASCAL)
                    .toPlainString()
                : ""));
  }

  @Override
  public void missing(long line) {
    sink.gap();
  }

  @Override
  public void refused(long line, String raw, String reason) {
    sink.refused(line, raw, reason);
  }

  /** The name of a file without its ending, if it can be a station's code; else empty. */
  static String code(String name) {
    int dot = name.lastIndexOf('.');
    String base = (dot > 0 ? name.substring(0, dot) : name).strip();
    return base.length() <= LONGEST_CODE && base.matches("[A-Za-z0-9._-]+") ? base : "";
  }

  private static String plain(OptionalDouble value) {
    return value.isPresent() ? BigDecimal.valueOf(value.getAsDouble()).toPlainString() : "";
  }
}
