package towerledger.thermal.fill;

/**
 * The property fits of Kröger, Air-cooled Heat Exchangers and Cooling Towers (2004), appendix A,
 * which published Poppe calculations use. Kept to compare with them; the program itself computes
 * with {@link AshraeProperties}.
 */
public final class KroegerProperties implements AirWaterProperties {

  private static final double KELVIN = 273.15;

  @Override
  public double saturatedHumidityRatio(double temperatureC, double pressurePa) {
    double vapourPa = vapourPressurePa(temperatureC);
    return 0.62509 * vapourPa / (pressurePa - 1.005 * vapourPa);
  }

  /**
   * Humidity ratio from dry and wet bulb, appendix A.
   *
   * @return kg/kg of dry air
   */
  public double humidityRatio(double dryBulbC, double wetBulbC, double pressurePa) {
    double denominator = 2501.6 + 1.8577 * dryBulbC - 4.184 * wetBulbC;
    return (2501.6 - 2.3263 * wetBulbC) / denominator * saturatedHumidityRatio(wetBulbC, pressurePa)
        - 1.00416 * (dryBulbC - wetBulbC) / denominator;
  }

  @Override
  public double dryAirHeatCapacity(double temperatureC) {
    double t = meanKelvin(temperatureC);
    return 1.045356e3 + t * (-3.161783e-1 + t * (7.083814e-4 - 2.705209e-7 * t));
  }

  @Override
  public double vapourHeatCapacity(double temperatureC) {
    double t = meanKelvin(temperatureC);
    double t5 = t * t * t * t * t;
    return 1.3605e3 + 2.31334 * t - 2.46784e-10 * t5 + 5.91332e-13 * t5 * t;
  }

  @Override
  public double waterHeatCapacity(double temperatureC) {
    double t = meanKelvin(temperatureC);
    double t3 = t * t * t;
    return 8.15599e3 - 28.0627 * t + 5.11283e-2 * t * t - 2.17582e-13 * t3 * t3;
  }

  @Override
  public double latentHeatAtZeroC() {
    return latentHeat(KELVIN);
  }

  private static double latentHeat(double kelvin) {
    return 3.4831814e6 + kelvin * (-5.8627703e3 + kelvin * (12.139568 - 1.40290431e-2 * kelvin));
  }

  private static double vapourPressurePa(double temperatureC) {
    double kelvin = temperatureC + KELVIN;
    double ratio = 273.16 / kelvin;
    double z =
        10.79586 * (1 - ratio)
            + 5.02808 * Math.log10(ratio)
            + 1.50474e-4 * (1 - Math.pow(10, -8.29692 * (1 / ratio - 1)))
            + 4.2873e-4 * (Math.pow(10, 4.76955 * (1 - ratio)) - 1)
            + 2.786118312;
    return Math.pow(10, z);
  }

  private static double meanKelvin(double temperatureC) {
    return KELVIN + temperatureC / 2;
  }
}
