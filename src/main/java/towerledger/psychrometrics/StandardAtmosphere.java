package towerledger.psychrometrics;

import towerledger.quantity.OutOfRangeException;

/**
 * Pressure and temperature of the standard atmosphere by altitude.
 *
 * <p>Source: ASHRAE Handbook—Fundamentals (2017), chapter 1, equations 3 and 4 and table 1.
 */
public final class StandardAtmosphere {

  /** Pressure at sea level, Pa. */
  public static final double SEA_LEVEL_PA = 101_325;

  private static final double LOWEST_M = -5000;
  private static final double HIGHEST_M = 11_000;

  private StandardAtmosphere() {}

  /**
   * Pressure at an altitude, equation 3.
   *
   * @param altitudeM m above sea level, −5000 … 11000
   * @return Pa
   */
  public static double pressurePa(double altitudeM) {
    requireAltitude(altitudeM);
    return SEA_LEVEL_PA * Math.pow(1 - 2.25577e-5 * altitudeM, 5.2559);
  }

  /**
   * Temperature at an altitude, equation 4.
   *
   * @param altitudeM m above sea level, −5000 … 11000
   * @return °C
   */
  public static double temperatureC(double altitudeM) {
    requireAltitude(altitudeM);
    return 15 - 0.0065 * altitudeM;
  }

  /**
   * Station pressure from pressure reduced to sea level, by the hydrostatic equation at the mean
   * temperature of the air column (US Standard Atmosphere lapse rate, 0.0065 K/m).
   *
   * @param seaLevelPa pressure reduced to sea level, Pa
   * @param altitudeM station altitude, m
   * @param dryBulbC temperature at the station, °C
   * @return Pa
   */
  public static double stationPressurePa(double seaLevelPa, double altitudeM, double dryBulbC) {
    return seaLevelPa / seaLevelFactor(altitudeM, dryBulbC);
  }

  /**
   * Pressure reduced to sea level from station pressure.
   *
   * @param stationPa station pressure, Pa
   * @param altitudeM station altitude, m
   * @param dryBulbC temperature at the station, °C
   * @return Pa
   */
  public static double seaLevelPressurePa(double stationPa, double altitudeM, double dryBulbC) {
    return stationPa * seaLevelFactor(altitudeM, dryBulbC);
  }

  /**
   * Hess (1959), Introduction to Theoretical Meteorology, equation 6.5: mean column temperature.
   */
  private static double seaLevelFactor(double altitudeM, double dryBulbC) {
    requireAltitude(altitudeM);
    double columnK = dryBulbC + 0.0065 * altitudeM / 2 + 273.15;
    return Math.exp(altitudeM / (287.055 * columnK / 9.807));
  }

  private static void requireAltitude(double altitudeM) {
    OutOfRangeException.requireWithin(
        "altitude", altitudeM, LOWEST_M, HIGHEST_M, "m", "check the site's elevation and its unit");
  }
}
