package towerledger.psychrometrics;

import towerledger.quantity.OutOfRangeException;

/**
 * Pressure of water vapour in equilibrium with water or ice.
 *
 * <p>Source: ASHRAE Handbook—Fundamentals (2017), chapter 1, equations 5 (ice) and 6 (water), after
 * Hyland and Wexler (1983).
 */
public final class SaturationPressure {

  /** Coldest temperature of the equations, °C. */
  public static final double COLDEST_C = -100;

  /** Hottest temperature of the equations, °C. */
  public static final double HOTTEST_C = 200;

  /** Triple point of water, °C: ice at or below, water above. */
  public static final double TRIPLE_POINT_C = 0.01;

  private static final double KELVIN = 273.15;

  private SaturationPressure() {}

  /**
   * Saturation pressure over ice at or below the triple point, over water above it.
   *
   * @param temperatureC °C, −100 … 200
   * @return Pa
   * @throws OutOfRangeException outside the range of the equations
   */
  public static double pascals(double temperatureC) {
    OutOfRangeException.requireWithin(
        "temperature",
        temperatureC,
        COLDEST_C,
        HOTTEST_C,
        "°C",
        "the saturation equations end there; check the reading and its unit");
    return temperatureC <= TRIPLE_POINT_C ? overIcePa(temperatureC) : overWaterPa(temperatureC);
  }

  /**
   * Saturation pressure over ice, equation 5; the caller answers for the range −100 … 0.01 °C.
   *
   * @return Pa
   */
  public static double overIcePa(double temperatureC) {
    double kelvin = temperatureC + KELVIN;
    return Math.exp(
        -5.6745359e3 / kelvin
            + 6.3925247
            + kelvin
                * (-9.677843e-3
                    + kelvin * (6.2215701e-7 + kelvin * (2.0747825e-9 - 9.484024e-13 * kelvin)))
            + 4.1635019 * Math.log(kelvin));
  }

  /**
   * Saturation pressure over water, equation 6; stated for 0 … 200 °C, and continued smoothly below
   * for supercooled drops.
   *
   * @return Pa
   */
  public static double overWaterPa(double temperatureC) {
    double kelvin = temperatureC + KELVIN;
    return Math.exp(
        -5.8002206e3 / kelvin
            + 1.3914993
            + kelvin * (-4.8640239e-2 + kelvin * (4.1764768e-5 - 1.4452093e-8 * kelvin))
            + 6.5459673 * Math.log(kelvin));
  }

  /**
   * Slope of the logarithm of equation 6 (water).
   *
   * @return d ln p / dT, 1/K
   */
  public static double logSlopeOverWater(double temperatureC) {
    double kelvin = temperatureC + KELVIN;
    return 5.8002206e3 / (kelvin * kelvin)
        - 4.8640239e-2
        + kelvin * (2 * 4.1764768e-5 - 3 * 1.4452093e-8 * kelvin)
        + 6.5459673 / kelvin;
  }

  /**
   * Slope of the logarithm of equation 5 (ice).
   *
   * @return d ln p / dT, 1/K
   */
  public static double logSlopeOverIce(double temperatureC) {
    double kelvin = temperatureC + KELVIN;
    return 5.6745359e3 / (kelvin * kelvin)
        - 9.677843e-3
        + kelvin * (2 * 6.2215701e-7 + kelvin * (3 * 2.0747825e-9 - 4 * 9.484024e-13 * kelvin))
        + 4.1635019 / kelvin;
  }

  /**
   * Temperature at which water (or ice) has a vapour pressure: equations 5 and 6 turned round by
   * Newton's method on the logarithm, as the dew point asks.
   *
   * @param pascals vapour pressure, Pa, above zero
   * @return °C
   * @throws OutOfRangeException when the temperature would leave the range of the equations
   */
  public static double temperatureC(double pascals) {
    double least = overIcePa(COLDEST_C);
    double most = overWaterPa(HOTTEST_C);
    OutOfRangeException.requireWithin(
        "vapour pressure",
        pascals,
        least,
        most,
        "Pa",
        "air this dry or this wet has no dew point here; check humidity and its unit");
    boolean ice = pascals <= overIcePa(TRIPLE_POINT_C);
    double logTarget = Math.log(pascals);
    // Magnus form as a first guess (Alduchov and Eskridge 1996, constants from memory).
    double x = logTarget - Math.log(611);
    double guessC = ice ? 273.9 * x / (22.587 - x) : 243.04 * x / (17.625 - x);
    for (int i = 0; i < 20; i++) {
      double excess = Math.log(ice ? overIcePa(guessC) : overWaterPa(guessC)) - logTarget;
      double step = excess / (ice ? logSlopeOverIce(guessC) : logSlopeOverWater(guessC));
      guessC -= step;
      if (Math.abs(step) < 1e-7) {
        break;
      }
    }
    return guessC;
  }
}
