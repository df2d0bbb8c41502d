package towerledger.thermal.water;

import towerledger.quantity.OutOfRangeException;

/**
 * A well-mixed basin (with everything that circulates through it) of constant volume.
 *
 * @param litres water held, above zero
 */
public record Basin(double litres) {

  public Basin {
    OutOfRangeException.requirePositive(
        "basin volume", litres, "L", "give all the water that circulates");
  }

  /**
   * Concentration after a time of steady flows: dc/dt = (F c_m − L c) / S with F = E + L, solved.
   *
   * @param before concentration at the beginning, any unit
   * @param makeup concentration of the makeup, same unit
   * @param evaporationLPerHour L/h
   * @param concentratedLossLPerHour bleed, drift, overflow and leak, L/h
   * @param hours duration
   */
  public double concentrationAfter(
      double before,
      double makeup,
      double evaporationLPerHour,
      double concentratedLossLPerHour,
      double hours) {
    double fresh = evaporationLPerHour + concentratedLossLPerHour;
    if (concentratedLossLPerHour <= 0) {
      return before + fresh * makeup * hours / litres;
    }
    double settled = fresh * makeup / concentratedLossLPerHour;
    return settled + (before - settled) * Math.exp(-concentratedLossLPerHour * hours / litres);
  }

  /** Hours in which the concentration goes 63 % of its way to a new steady state. */
  public double timeConstantHours(double concentratedLossLPerHour) {
    return litres
        / OutOfRangeException.requirePositive(
            "concentrated loss",
            concentratedLossLPerHour,
            "L/h",
            "without it the basin never settles");
  }

  /**
   * Hours to fill from a valve wide open, while water is drawn.
   *
   * @param missingLitres what the basin lacks, not negative
   * @param valveLPerHour flow of the fill valve, L/h
   * @param drawnLPerHour evaporation and losses meanwhile, L/h
   * @return infinite when the valve does not keep up
   */
  public static double hoursToFill(
      double missingLitres, double valveLPerHour, double drawnLPerHour) {
    double gain = valveLPerHour - drawnLPerHour;
    return gain > 0 ? missingLitres / gain : Double.POSITIVE_INFINITY;
  }

  /**
   * What runs over the edge of a full basin while its fill valve is open.
   *
   * @return L/h, zero when everything is used
   */
  public static double overflowLPerHour(double valveLPerHour, double drawnLPerHour) {
    return Math.max(valveLPerHour - drawnLPerHour, 0);
  }
}
