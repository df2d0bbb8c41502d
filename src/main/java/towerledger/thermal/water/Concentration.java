package towerledger.thermal.water;

import towerledger.quantity.OutOfRangeException;

/**
 * Balances of water and dissolved solids in steady state.
 *
 * <p>Evaporation carries no solids; whatever else leaves the basin (bleed, drift, overflow, basin
 * leak) leaves at basin concentration and is called the concentrated loss. Volumes and rates may be
 * in any one unit. Cycles are basin over makeup concentration.
 *
 * <p>Source: the two balances M = E + L and M c_m = L c_b, solved; as in the EnergyPlus Engineering
 * Reference, "Cooling Tower Makeup Water Usage".
 */
public final class Concentration {

  private static final double MOST_CYCLES = 100;

  private Concentration() {}

  /**
   * Concentrated loss that goes with cycles: L = E / (C − 1).
   *
   * @param evaporation not negative
   * @param cycles above 1, at most 100
   */
  public static double concentratedLoss(double evaporation, double cycles) {
    requireEvaporation(evaporation);
    requireCycles(cycles);
    return evaporation / (cycles - 1);
  }

  /**
   * Water that reaches the basin at given cycles: F = E C / (C − 1).
   *
   * @param evaporation not negative
   * @param cycles above 1, at most 100
   */
  public static double makeup(double evaporation, double cycles) {
    return concentratedLoss(evaporation, cycles) * cycles;
  }

  /**
   * Bleed needed to hold target cycles: B* = E / (C* − 1) − D, since drift carries solids away too.
   *
   * @return the bleed; negative when drift alone keeps the cycles below their target
   */
  public static double neededBlowdown(double evaporation, double targetCycles, double drift) {
    return concentratedLoss(evaporation, targetCycles) - drift;
  }

  /**
   * Cycles that settle with a concentrated loss: C = 1 + E / L.
   *
   * @param concentratedLoss above zero
   */
  public static double cycles(double evaporation, double concentratedLoss) {
    requireEvaporation(evaporation);
    OutOfRangeException.requirePositive(
        "concentrated loss",
        concentratedLoss,
        "",
        "without bleed, drift or leak the cycles have no limit");
    return 1 + evaporation / concentratedLoss;
  }

  /**
   * Concentrated loss beyond what target cycles need: X = (D + B + O) − E / (C* − 1).
   *
   * @return positive when too much is lost, negative when the basin concentrates beyond its target
   */
  public static double excessLoss(
      double evaporation, double drift, double blowdown, double overflow, double targetCycles) {
    return drift + blowdown + overflow - concentratedLoss(evaporation, targetCycles);
  }

  /** Water wasted: excess concentrated loss, if any, and fresh water lost before the basin. */
  public static double waste(double excessLoss, double freshLoss) {
    return Math.max(excessLoss, 0) + freshLoss;
  }

  /**
   * Share of the makeup saved by going from some cycles to more: (C2 − C1) / (C1 (C2 − 1)).
   *
   * @return 0 … 1; negative when the second cycles are fewer
   */
  public static double makeupSavedShare(double fromCycles, double toCycles) {
    requireCycles(fromCycles);
    requireCycles(toCycles);
    return (toCycles - fromCycles) / (fromCycles * (toCycles - 1));
  }

  /**
   * Share of the concentrated loss saved by going from some cycles to more: 1 − (C1 − 1) / (C2 −
   * 1).
   */
  public static double concentratedLossSavedShare(double fromCycles, double toCycles) {
    requireCycles(fromCycles);
    requireCycles(toCycles);
    return 1 - (fromCycles - 1) / (toCycles - 1);
  }

  /**
   * Drift: water carried out as drops.
   *
   * @param circulation water over the tower
   * @param driftShare share of the circulation, 0 … 0.05; old towers without eliminators 0.0002,
   *     modern ones 0.000005 to 0.00002
   */
  public static double drift(double circulation, double driftShare) {
    OutOfRangeException.requireWithin(
        "drift", driftShare, 0, 0.05, "of the circulation", "give it as a share, not in percent");
    return circulation * driftShare;
  }

  private static void requireEvaporation(double evaporation) {
    if (!(evaporation >= 0) || Double.isInfinite(evaporation)) {
      throw new OutOfRangeException(
          "evaporation", evaporation, "", "must not be negative", "check the heat load");
    }
  }

  private static void requireCycles(double cycles) {
    if (!(cycles > 1 && cycles <= MOST_CYCLES)) {
      throw new OutOfRangeException(
          "cycles",
          cycles,
          "",
          "must be above 1 and at most 100",
          "cycles are basin over makeup conductivity; check both readings");
    }
  }
}
