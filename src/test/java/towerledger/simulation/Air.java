package towerledger.simulation;

/**
 * Moist air for the simulator, by other formulas than the ledger's: saturation after Buck (1981,
 * with the 1996 coefficients), an ideal mixture, constant specific heats.
 */
final class Air {

  /** Specific heat of dry air, J/(kg K). */
  static final double CP_AIR = 1006;

  /** Specific heat of water vapour, J/(kg K). */
  static final double CP_VAPOUR = 1868;

  /** Specific heat of water, J/(kg K). */
  static final double CP_WATER = 4186;

  /** Heat of evaporation at 0 °C, J/kg. */
  static final double LATENT = 2.5009e6;

  private Air() {}

  /** Saturation pressure over water, Pa. */
  static double saturationPa(double celsius) {
    return 611.21 * Math.exp((18.678 - celsius / 234.5) * celsius / (257.14 + celsius));
  }

  /** Kilograms of vapour a kilogram of dry air holds when saturated. */
  static double saturationRatio(double celsius, double pressurePa) {
    double vapour = saturationPa(celsius);
    return 0.62198 * vapour / (pressurePa - vapour);
  }

  /** Enthalpy per kilogram of dry air, J. */
  static double enthalpy(double celsius, double ratio) {
    return CP_AIR * celsius + ratio * (LATENT + CP_VAPOUR * celsius);
  }

  /** Wet bulb by bisection on the energy balance of adiabatic saturation. */
  static double wetBulbC(double dryBulbC, double ratio, double pressurePa) {
    double low = -60;
    double high = dryBulbC;
    double enthalpy = enthalpy(dryBulbC, ratio);
    for (int i = 0; i < 40; i++) {
      double mid = (low + high) / 2;
      double saturated = saturationRatio(mid, pressurePa);
      double balance = enthalpy(mid, saturated) - (saturated - ratio) * CP_WATER * mid;
      if (balance < enthalpy) {
        low = mid;
      } else {
        high = mid;
      }
    }
    return (low + high) / 2;
  }

  /** Cubic metres per kilogram of dry air. */
  static double specificVolume(double celsius, double ratio, double pressurePa) {
    return 287.05 * (celsius + 273.15) * (1 + 1.6078 * ratio) / pressurePa;
  }
}
