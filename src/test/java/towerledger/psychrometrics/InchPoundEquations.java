package towerledger.psychrometrics;

import towerledger.quantity.Units;

/**
 * The inch-pound forms of ASHRAE Fundamentals (2017), chapter 1. They are not conversions of the SI
 * forms: their constants are rounded on their own, so that the two differ by up to 0.3 % over ice.
 * The program computes in SI alone; these stand here so that the printed inch-pound values can be
 * checked against what they were computed with, and the SI forms against these.
 */
final class InchPoundEquations {

  private InchPoundEquations() {}

  /** Equations 33 and 35, inch-pound. */
  static double humidityRatio(double dryBulbF, double wetBulbF, double pressurePsi) {
    double saturated =
        HumidityRatio.saturated(Units.celsius(wetBulbF), pressurePsi * Units.PASCALS_PER_PSI);
    return wetBulbF >= 32
        ? ((1093 - 0.556 * wetBulbF) * saturated - 0.240 * (dryBulbF - wetBulbF))
            / (1093 + 0.444 * dryBulbF - wetBulbF)
        : ((1220 - 0.04 * wetBulbF) * saturated - 0.240 * (dryBulbF - wetBulbF))
            / (1220 + 0.444 * dryBulbF - 0.48 * wetBulbF);
  }

  /** Equation 30, inch-pound, Btu per lb of dry air counted from 0 °F. */
  static double enthalpyBtuPerLb(double dryBulbF, double humidityRatio) {
    return 0.240 * dryBulbF + humidityRatio * (1061 + 0.444 * dryBulbF);
  }
}
