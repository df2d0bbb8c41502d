package towerledger.psychrometrics;

import towerledger.quantity.OutOfRangeException;

/**
 * Mass of water vapour per mass of dry air, kg/kg.
 *
 * <p>Source: ASHRAE Handbook—Fundamentals (2017), chapter 1; equation numbers at the formulas.
 */
public final class HumidityRatio {

  /** Molar mass of water over that of dry air (equation 20). */
  public static final double MOLAR_MASS_RATIO = 0.621945;

  private HumidityRatio() {}

  /**
   * Humidity ratio at a vapour pressure, equation 20.
   *
   * @param vapourPressurePa Pa, 0 … below the air pressure
   * @param pressurePa air pressure, Pa
   * @return kg/kg of dry air
   */
  public static double ofVapourPressure(double vapourPressurePa, double pressurePa) {
    if (!(vapourPressurePa >= 0 && vapourPressurePa < pressurePa)) {
      throw new OutOfRangeException(
          "vapour pressure",
          vapourPressurePa,
          "Pa",
          "must lie between zero and the air pressure of "
              + OutOfRangeException.withUnit(pressurePa, "Pa"),
          "water would boil; check temperature, humidity and pressure");
    }
    return MOLAR_MASS_RATIO * vapourPressurePa / (pressurePa - vapourPressurePa);
  }

  /**
   * Humidity ratio of saturated air, equation 21.
   *
   * @param temperatureC °C
   * @param pressurePa Pa
   * @return kg/kg of dry air
   */
  public static double saturated(double temperatureC, double pressurePa) {
    return ofVapourPressure(SaturationPressure.pascals(temperatureC), pressurePa);
  }

  /**
   * Vapour pressure at a humidity ratio, equation 20 solved for it.
   *
   * @return Pa
   */
  public static double vapourPressurePa(double humidityRatio, double pressurePa) {
    return pressurePa * humidityRatio / (MOLAR_MASS_RATIO + humidityRatio);
  }

  /**
   * Humidity ratio from dry and wet bulb: equation 33 over water, equation 35 over ice (wet bulb
   * below 0 °C).
   *
   * @param dryBulbC °C
   * @param wetBulbC thermodynamic wet bulb, °C, not above the dry bulb
   * @param pressurePa Pa
   * @return kg/kg of dry air
   * @throws OutOfRangeException when the wet bulb is above the dry bulb, or so far below it that
   *     the air would hold less than no vapour
   */
  public static double fromWetBulb(double dryBulbC, double wetBulbC, double pressurePa) {
    if (!(wetBulbC <= dryBulbC)) {
      throw new OutOfRangeException(
          "wet bulb",
          wetBulbC,
          "°C",
          "must not be above the dry bulb of " + OutOfRangeException.withUnit(dryBulbC, "°C"),
          "check whether the two were exchanged");
    }
    double humidityRatio = unchecked(dryBulbC, wetBulbC, pressurePa);
    if (humidityRatio < 0) {
      throw new OutOfRangeException(
          "wet bulb",
          wetBulbC,
          "°C",
          "is too far below the dry bulb of "
              + OutOfRangeException.withUnit(dryBulbC, "°C")
              + ": even dry air has a higher one",
          "check both readings and their units");
    }
    return humidityRatio;
  }

  /**
   * Whether air can have both: the wet bulb is not above the dry bulb, and not below that of air
   * without vapour.
   */
  public static boolean isPossible(double dryBulbC, double wetBulbC, double pressurePa) {
    return wetBulbC <= dryBulbC && unchecked(dryBulbC, wetBulbC, pressurePa) >= 0;
  }

  private static double unchecked(double dryBulbC, double wetBulbC, double pressurePa) {
    double saturated = saturated(wetBulbC, pressurePa);
    return wetBulbC >= 0
        ? overWater(dryBulbC, wetBulbC, saturated)
        : overIce(dryBulbC, wetBulbC, saturated);
  }

  /** Equation 33: {@code saturated} is the humidity ratio of saturated air at the wet bulb. */
  static double overWater(double dryBulbC, double wetBulbC, double saturated) {
    return ((2501 - 2.326 * wetBulbC) * saturated - 1.006 * (dryBulbC - wetBulbC))
        / (2501 + 1.86 * dryBulbC - 4.186 * wetBulbC);
  }

  /** Equation 35: {@code saturated} is the humidity ratio of saturated air at the wet bulb. */
  static double overIce(double dryBulbC, double wetBulbC, double saturated) {
    return ((2830 - 0.24 * wetBulbC) * saturated - 1.006 * (dryBulbC - wetBulbC))
        / (2830 + 1.86 * dryBulbC - 2.1 * wetBulbC);
  }
}
