package towerledger.psychrometrics;

import towerledger.quantity.OutOfRangeException;

/**
 * Thermodynamic wet bulb: equations 33 and 35 of ASHRAE Fundamentals (2017), chapter 1, solved for
 * it.
 *
 * <p>Both are written without their fraction, which leaves an increasing function of the wet bulb
 * with an exponential in it; Halley's method on it needs two or three steps where bisection needs
 * fifteen. Between the two equations there is a gap at 0 °C: a narrow band of humidity has a wet
 * bulb on a wick of water just above 0 °C and another on a wick of ice just below. The one over
 * water is returned then.
 */
public final class WetBulb {

  // Convergence is cubic: a step this small leaves an error below 1e-7 K.
  private static final double CONVERGED_K = 2e-3;
  private static final int MOST_STEPS = 40;

  private WetBulb() {}

  /**
   * Wet bulb of air.
   *
   * @param dryBulbC °C, −100 … 200
   * @param humidityRatio kg/kg, from zero to saturation
   * @param pressurePa Pa
   * @return °C, exact to better than 1e-6 K
   * @throws OutOfRangeException when the air holds more vapour than saturation allows
   */
  public static double fromHumidityRatio(double dryBulbC, double humidityRatio, double pressurePa) {
    double vapourPa = SaturationPressure.pascals(dryBulbC);
    double saturated = HumidityRatio.ofVapourPressure(vapourPa, pressurePa);
    if (!(humidityRatio >= 0 && humidityRatio <= saturated * (1 + 1e-9))) {
      throw new OutOfRangeException(
          "humidity ratio",
          humidityRatio,
          "kg/kg",
          "must lie between zero and saturation, "
              + OutOfRangeException.withUnit(saturated, "kg/kg"),
          "check humidity, temperature and pressure");
    }
    boolean water =
        dryBulbC >= 0
            && humidityRatio >= HumidityRatio.overWater(dryBulbC, 0, saturatedAtZero(pressurePa));
    if (!water) {
      return overIce(dryBulbC, humidityRatio, pressurePa);
    }
    // The dry bulb is the first guess: its saturation pressure is at hand.
    double firstStep =
        halleyStep(
            WATER,
            dryBulbC,
            humidityRatio,
            pressurePa,
            dryBulbC,
            vapourPa,
            SaturationPressure.logSlopeOverWater(dryBulbC));
    return Math.max(overLiquid(dryBulbC, humidityRatio, pressurePa, dryBulbC - firstStep), 0);
  }

  /**
   * Wet bulb of air as if the wick held liquid water at any temperature: equation 33 alone, which
   * is continuous through 0 °C.
   *
   * @param startC a first guess, °C
   * @return °C
   */
  public static double overLiquid(
      double dryBulbC, double humidityRatio, double pressurePa, double startC) {
    double wetBulbC = startC;
    for (int i = 0; i < MOST_STEPS; i++) {
      double step =
          halleyStep(
              WATER,
              dryBulbC,
              humidityRatio,
              pressurePa,
              wetBulbC,
              SaturationPressure.overWaterPa(wetBulbC),
              SaturationPressure.logSlopeOverWater(wetBulbC));
      wetBulbC -= step;
      if (Math.abs(step) < CONVERGED_K) {
        break;
      }
    }
    return wetBulbC;
  }

  private static double overIce(double dryBulbC, double humidityRatio, double pressurePa) {
    double wetBulbC = Math.min(dryBulbC, 0);
    for (int i = 0; i < MOST_STEPS; i++) {
      double step =
          halleyStep(
              ICE,
              dryBulbC,
              humidityRatio,
              pressurePa,
              wetBulbC,
              SaturationPressure.overIcePa(wetBulbC),
              SaturationPressure.logSlopeOverIce(wetBulbC));
      wetBulbC -= step;
      if (Math.abs(step) < CONVERGED_K) {
        break;
      }
    }
    return wetBulbC;
  }

  /** Constants of equation 33 or 35: (h − a·t*)·Ws − 1.006 (t − t*) = W (h + 1.86 t − c·t*). */
  private record Wick(double h, double a, double c) {}

  private static final Wick WATER = new Wick(2501, 2.326, 4.186);
  private static final Wick ICE = new Wick(2830, 0.24, 2.1);
  private static final double ZERO_C_VAPOUR_PA = SaturationPressure.overIcePa(0);

  /** One step of Halley's method, K, to be taken off the guess of the wet bulb. */
  private static double halleyStep(
      Wick wick,
      double dryBulbC,
      double humidityRatio,
      double pressurePa,
      double wetBulbC,
      double vapourPa,
      double logSlope) {
    double dryPa = pressurePa - vapourPa;
    double saturated = HumidityRatio.MOLAR_MASS_RATIO * vapourPa / dryPa;
    double relative = logSlope * pressurePa / dryPa;
    double slope = saturated * relative;
    double curvature = slope * relative;
    double heat = wick.h - wick.a * wetBulbC;
    double f =
        heat * saturated
            - 1.006 * (dryBulbC - wetBulbC)
            - humidityRatio * (wick.h + 1.86 * dryBulbC - wick.c * wetBulbC);
    double f1 = heat * slope - wick.a * saturated + 1.006 + humidityRatio * wick.c;
    double f2 = heat * curvature - 2 * wick.a * slope;
    return f / (f1 - 0.5 * f * f2 / f1);
  }

  private static double saturatedAtZero(double pressurePa) {
    return HumidityRatio.MOLAR_MASS_RATIO * ZERO_C_VAPOUR_PA / (pressurePa - ZERO_C_VAPOUR_PA);
  }
}
