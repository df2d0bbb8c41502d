package towerledger.simulation;

/** A station's hours: dry bulb, dew point (never above it) and station pressure. */
public final class SimulatedWeather {

  private final LocalHours hours;
  private final double[] dryBulbC;
  private final double[] dewPointC;
  private final double[] pressurePa;

  private SimulatedWeather(LocalHours hours) {
    this.hours = hours;
    int n = hours.grid().hours();
    dryBulbC = new double[n];
    dewPointC = new double[n];
    pressurePa = new double[n];
  }

  /** Season, time of day, passing fronts, clear and dull days, a haze of hourly noise. */
  public static SimulatedWeather of(
      Climate climate, double elevationM, LocalHours hours, Chance chance) {
    SimulatedWeather weather = new SimulatedWeather(hours);
    int n = hours.grid().hours();
    double[] front = chance.branch("front").wandering(n, 52, 1);
    double[] moisture = chance.branch("moisture").wandering(n, 38, 1);
    double[] clearness = chance.branch("clearness").wandering(n, 30, 0.28);
    double[] haze = chance.branch("haze").wandering(n, 3, 0.5);
    double[] barometer = chance.branch("barometer").wandering(n, 70, 1);
    // Barometric formula of the standard atmosphere in its simplest form.
    double standardPa = 101_325 * Math.pow(1 - 2.2558e-5 * elevationM, 5.2559);
    for (int i = 0; i < n; i++) {
      double season = hours.season(i);
      double frontC = climate.frontC(season);
      double swing =
          climate.dayHalfRangeC()
              * Math.max(0.25, 1 + clearness[i])
              * dayShape(hours.hourOfDay(i) + 0.5);
      weather.dryBulbC[i] = climate.meanDryBulbC(season) + frontC * front[i] + swing + haze[i];
      double dew =
          climate.meanDewPointC(season)
              + 0.75 * frontC * front[i]
              + (1.2 + 0.45 * frontC) * moisture[i]
              - 0.6 * clearness[i] * 4
              + 0.08 * swing;
      weather.dewPointC[i] = Math.min(dew, weather.dryBulbC[i] - 0.3);
      weather.pressurePa[i] = standardPa + 100 * frontC * (0.9 * barometer[i] - 0.6 * front[i]);
    }
    return weather;
  }

  public LocalHours hours() {
    return hours;
  }

  public double dryBulbC(int hour) {
    return dryBulbC[hour];
  }

  public double dewPointC(int hour) {
    return dewPointC[hour];
  }

  /** Wet bulb, computed anew at each call. */
  public double wetBulbC(int hour) {
    double vapour = Air.saturationPa(dewPointC[hour]);
    double ratio = 0.62198 * vapour / (pressurePa[hour] - vapour);
    return Air.wetBulbC(dryBulbC[hour], ratio, pressurePa[hour]);
  }

  public double pressurePa(int hour) {
    return pressurePa[hour];
  }

  /** From −1 shortly before sunrise to +1 in mid-afternoon, rising faster than it falls. */
  private static double dayShape(double localHour) {
    double phase = (localHour - 5 + 24) % 24;
    return phase < 10.5
        ? -Math.cos(Math.PI * phase / 10.5)
        : Math.cos(Math.PI * (phase - 10.5) / 13.5);
  }
}
