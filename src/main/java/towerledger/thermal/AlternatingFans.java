package towerledger.thermal;

import towerledger.thermal.fill.CounterflowFill;

/**
 * Fans that alternate between fixed air flows, tabulated over the hot water they share: by how much
 * the water is cooled and what part of it evaporates at each air flow. Both are polynomials in the
 * share of the way from the coolest to the hottest hot water.
 */
final class AlternatingFans {

  /** Nodes (and coefficients) along the hot water. */
  private static final int HOT = ChebyshevNodes.COUNT;

  /** Coefficients of one air flow: the range, K, then the evaporated share. */
  static final int COEFFICIENTS = 2 * HOT;

  private static final double[] SINGLE = {WetTower.LEAST_AIR_SHARE, 1};
  private static final double[] TWO = {WetTower.LEAST_AIR_SHARE, WetTower.LOW_SPEED_AIR_SHARE, 1};

  private final double[] range = new double[HOT];
  private final double[] evaporated = new double[HOT];

  /** Number of air flows that fans alternate between; 0 for variable speed. */
  static int states(FanControl fans) {
    return switch (fans) {
      case VARIABLE_SPEED -> 0;
      case SINGLE_SPEED -> SINGLE.length;
      case TWO_SPEED -> TWO.length;
    };
  }

  /** Hottest hot water tabulated, °C. */
  static double hottestC(double designRangeK) {
    return ResponseGrid.HOTTEST_C + ResponseGrid.LOAD[ResponseGrid.LOAD.length - 1] * designRangeK;
  }

  /**
   * Computes the coefficients at one state of the air.
   *
   * @param solver fill with the entering air set
   * @param states number of air flows
   * @param fullAir dry air over water with the fans at full speed
   */
  void tabulate(
      CounterflowFill solver,
      int states,
      double fullAir,
      double designRangeK,
      double[] into,
      int offset) {
    double[] shares = states == TWO.length ? TWO : SINGLE;
    double coolestC = ResponseGrid.coolestHotC(solver.coldestC());
    double spanK = hottestC(designRangeK) - coolestC;
    for (int s = 0; s < states; s++) {
      for (int k = 0; k < HOT; k++) {
        double hotC = coolestC + spanK * ChebyshevNodes.node(k);
        double coldC = solver.coldWaterFromHot(hotC, shares[s] * fullAir);
        range[k] = hotC - coldC;
        evaporated[k] = solver.evaporatedShare();
      }
      ChebyshevNodes.powers(range, into, offset + s * COEFFICIENTS);
      ChebyshevNodes.powers(evaporated, into, offset + s * COEFFICIENTS + HOT);
    }
  }

  /**
   * Evaporation over water and range, 1/K, when the air flows alternate to hold a cold water.
   *
   * @param c coefficients of all air flows at the state of the air
   */
  static double evaporationPerRange(
      double[] c, int states, double limitC, double coldC, double rangeK, double designRangeK) {
    double hotC = coldC + rangeK;
    double coolestC = ResponseGrid.coolestHotC(limitC);
    double z = (hotC - coolestC) / (hottestC(designRangeK) - coolestC);
    int upper = 1;
    double upperK = ChebyshevNodes.value(c, COEFFICIENTS, z);
    double lowerK;
    if (states == TWO.length && upperK < rangeK) {
      upper = 2;
      lowerK = upperK;
      upperK = ChebyshevNodes.value(c, 2 * COEFFICIENTS, z);
    } else {
      lowerK = ChebyshevNodes.value(c, 0, z);
    }
    double time = (rangeK - lowerK) / (upperK - lowerK);
    double atUpper = ChebyshevNodes.value(c, upper * COEFFICIENTS + HOT, z);
    double atLower = ChebyshevNodes.value(c, (upper - 1) * COEFFICIENTS + HOT, z);
    return (time * atUpper + (1 - time) * atLower) / rangeK;
  }
}
