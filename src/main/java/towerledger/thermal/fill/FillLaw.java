package towerledger.thermal.fill;

import towerledger.quantity.OutOfRangeException;

/**
 * How the transfer of a fill depends on the ratio of water to air: Me = a (L/G)^−n.
 *
 * @param coefficient a, the Merkel number at equal flows of water and dry air
 * @param exponent n, 0.2 … 1.2; films and splash packs lie between 0.35 and 1.1, mostly near 0.6
 */
public record FillLaw(double coefficient, double exponent) {

  /** Exponent taken when the fill is not known. */
  public static final double USUAL_EXPONENT = 0.6;

  public FillLaw {
    OutOfRangeException.requirePositive(
        "fill coefficient", coefficient, "", "check the design point");
    OutOfRangeException.requireWithin(
        "fill exponent", exponent, 0.2, 1.2, "", "published fills lie between 0.35 and 1.1");
  }

  /** The law through one known point. */
  public static FillLaw through(double merkelNumber, double waterToAir, double exponent) {
    return new FillLaw(merkelNumber * Math.pow(waterToAir, exponent), exponent);
  }

  /**
   * Merkel number available.
   *
   * @param waterToAir water flow over dry-air flow, kg/kg
   */
  public double merkelNumber(double waterToAir) {
    return coefficient * Math.pow(waterToAir, -exponent);
  }
}
