package towerledger.weather;

import java.time.Instant;
import java.util.Arrays;
import towerledger.psychrometrics.HumidityRatio;
import towerledger.psychrometrics.MoistAir;
import towerledger.psychrometrics.SaturationPressure;
import towerledger.psychrometrics.StandardAtmosphere;

/**
 * The whole record of a station as unbroken hours; what was not observed is NaN. Wet bulb is worked
 * out from whatever humidity was observed.
 */
final class HourSeries {

  /** Stored values are rounded; air so near to dryness is not told from dry air. */
  private static final double DRIEST_MARGIN_C = 0.05;

  private static final float UNKNOWN = Float.NaN;

  final long firstHour;
  final float[] dryBulbC;
  final float[] wetBulbC;
  final float[] pressurePa;

  private HourSeries(long firstHour, int hours) {
    this.firstHour = firstHour;
    this.dryBulbC = unknown(hours);
    this.wetBulbC = unknown(hours);
    this.pressurePa = unknown(hours);
  }

  private HourSeries(long firstHour, float[] dryBulbC, float[] wetBulbC, float[] pressurePa) {
    this.firstHour = firstHour;
    this.dryBulbC = dryBulbC;
    this.wetBulbC = wetBulbC;
    this.pressurePa = pressurePa;
  }

  /** Hours without any observation yet, from an hour (counted since 1970 UTC) on. */
  static HourSeries empty(long firstHour, int hours) {
    return new HourSeries(firstHour, hours);
  }

  private static float[] unknown(int hours) {
    float[] values = new float[hours];
    Arrays.fill(values, UNKNOWN);
    return values;
  }

  int hours() {
    return dryBulbC.length;
  }

  /** Hours since 1970 UTC. */
  static long hourOf(Instant instant) {
    return Math.floorDiv(instant.getEpochSecond(), 3600L);
  }

  /**
   * Puts an observed hour in its place.
   *
   * @param hour hours since 1970 UTC; outside this series it is dropped
   * @param dryBulbC dry bulb
   * @param wetBulbC wet bulb, or NaN
   * @param dewPointC dew point, or NaN
   * @param relativeHumidityPercent relative humidity, or NaN
   * @param stationPa observed station pressure, or NaN
   * @param assumedPa pressure to reckon the wet bulb with where none was observed, or NaN
   */
  void put(
      long hour,
      double dryBulbC,
      double wetBulbC,
      double dewPointC,
      double relativeHumidityPercent,
      double stationPa,
      double assumedPa) {
    int i = Math.toIntExact(hour - firstHour);
    if (i < 0 || i >= hours()) {
      return;
    }
    this.dryBulbC[i] = (float) dryBulbC;
    this.pressurePa[i] = (float) stationPa;
    this.wetBulbC[i] =
        (float)
            wetBulb(
                dryBulbC,
                wetBulbC,
                dewPointC,
                relativeHumidityPercent,
                Double.isNaN(stationPa) ? assumedPa : stationPa);
  }

  /**
   * Wet bulb from whatever humidity was observed; NaN where there is none, or no pressure. Dew
   * points, wet bulbs and humidities that instruments report a little above saturation count as
   * saturated; a wet bulb that not even air without vapour has is not known.
   */
  static double wetBulb(
      double dryBulbC,
      double wetBulbC,
      double dewPointC,
      double relativeHumidityPercent,
      double pressurePa) {
    if (!Double.isNaN(wetBulbC)) {
      double wet = Math.min(wetBulbC, dryBulbC);
      double pressure = Double.isNaN(pressurePa) ? StandardAtmosphere.pressurePa(0) : pressurePa;
      return HumidityRatio.isPossible(dryBulbC, wet - DRIEST_MARGIN_C, pressure) ? wet : Double.NaN;
    }
    if (Double.isNaN(pressurePa)) {
      return Double.NaN;
    }
    if (dewPointC < SaturationPressure.COLDEST_C) {
      return Double.NaN;
    }
    if (!Double.isNaN(dewPointC)) {
      return MoistAir.fromDewPoint(dryBulbC, Math.min(dewPointC, dryBulbC), pressurePa).wetBulbC();
    }
    if (!Double.isNaN(relativeHumidityPercent)) {
      return MoistAir.fromRelativeHumidity(
              dryBulbC, Math.min(relativeHumidityPercent, 100) / 100, pressurePa)
          .wetBulbC();
    }
    return Double.NaN;
  }

  /** Pressure of the standard atmosphere at an elevation; NaN where the elevation is not known. */
  static double standardPressurePa(double elevationM) {
    return Double.isNaN(elevationM) ? Double.NaN : StandardAtmosphere.pressurePa(elevationM);
  }

  /** Hours of a typical year laid over real ones from an hour on. */
  static HourSeries ofTypicalYear(HourSeries year, long firstHour, int hours) {
    float[] dry = new float[hours];
    float[] wet = new float[hours];
    float[] pressure = new float[hours];
    for (int i = 0; i < hours; i++) {
      int from = TypicalYear.hourOfYear(Instant.ofEpochSecond((firstHour + i) * 3600));
      dry[i] = year.dryBulbC[from];
      wet[i] = year.wetBulbC[from];
      pressure[i] = year.pressurePa[from];
    }
    return new HourSeries(firstHour, dry, wet, pressure);
  }

  /** Whether temperature and humidity of hour i were observed. */
  boolean observed(int i) {
    return !Float.isNaN(dryBulbC[i]) && !Float.isNaN(wetBulbC[i]);
  }
}
