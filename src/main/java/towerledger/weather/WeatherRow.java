package towerledger.weather;

import java.time.Instant;
import java.util.OptionalDouble;

/**
 * One hour as a weather file tells it; exactly one humidity is given.
 *
 * @param hourStart begin of the hour
 * @param dryBulbC dry bulb, −90 to 70 °C
 * @param wetBulbC wet bulb, °C
 * @param dewPointC dew point, °C
 * @param relativeHumidityPercent relative humidity, 0 to 105 %
 * @param pressurePa station pressure, 30 to 115 kPa
 */
public record WeatherRow(
    Instant hourStart,
    double dryBulbC,
    OptionalDouble wetBulbC,
    OptionalDouble dewPointC,
    OptionalDouble relativeHumidityPercent,
    OptionalDouble pressurePa) {

  public WeatherRow {
    require("dry bulb", OptionalDouble.of(dryBulbC), -90, 70, "°C");
    require("dew point", dewPointC, -100, 70, "°C");
    require("wet bulb", wetBulbC, -90, 70, "°C");
    require("relative humidity", relativeHumidityPercent, 0, 105, "%");
    require("station pressure", pressurePa, 30_000, 115_000, "Pa");
    int given =
        (wetBulbC.isPresent() ? 1 : 0)
            + (dewPointC.isPresent() ? 1 : 0)
            + (relativeHumidityPercent.isPresent() ? 1 : 0);
    if (given != 1) {
      throw new IllegalArgumentException(
          "hour %s has %d humidities; give exactly one of wet bulb, dew point, relative humidity"
              .formatted(hourStart, given));
    }
  }

  private static void require(
      String quantity, OptionalDouble value, double low, double high, String unit) {
    if (value.isPresent() && !(value.getAsDouble() >= low && value.getAsDouble() <= high)) {
      throw new IllegalArgumentException(
          "%s of %s %s lies outside %s to %s %s; check its unit"
              .formatted(quantity, value.getAsDouble(), unit, low, high, unit));
    }
  }
}
