package towerledger.thermal;

import towerledger.psychrometrics.HumidityRatio;
import towerledger.psychrometrics.MoistAir;
import towerledger.psychrometrics.SaturationPressure;
import towerledger.thermal.fill.CounterflowFill;

/**
 * Computes the nodes of an open tower's response table by the Poppe method: for every node of wet
 * bulb, dryness, pressure, load and cold water, the evaporation per heat and the air needed.
 */
final class ResponseBuilder {

  private static final int STEPS = 5;

  /** In colder air fog starts inside the fill, and the kink asks for shorter steps. */
  private static final double FOG_BELOW_C = -6;

  private static final int STEPS_IN_FOG = 8;
  private static final double TOLERANCE = 3e-6;

  /** The coldest node lies this share of the approach at full air above the wet bulb. */
  private static final double BELOW_FULL_AIR = 0.92;

  private final OpenFill fill;
  private final DesignPoint point;
  private final CounterflowFill ordinary;
  private final CounterflowFill foggy;
  private CounterflowFill solver;
  private final ResponseNodes nodes;
  private final AlternatingFans alternating = new AlternatingFans();
  private final double[][] knownAir = new double[ResponseGrid.LOAD.length][ResponseGrid.COLD];
  private final double[][] knownShare = new double[ResponseGrid.LOAD.length][ResponseGrid.COLD];
  private final double[] evaporationPerHeat = new double[ResponseGrid.COLD];
  private final double[] logAir = new double[ResponseGrid.COLD];

  ResponseBuilder(OpenFill fill, TowerDesign design) {
    this.fill = fill;
    this.point = design.point();
    this.ordinary = fill.quickSolver(STEPS, TOLERANCE);
    this.foggy = fill.quickSolver(STEPS_IN_FOG, TOLERANCE);
    this.solver = ordinary;
    this.nodes = ResponseNodes.empty(point.rangeK(), AlternatingFans.states(design.fanControl()));
  }

  ResponseNodes build() {
    int slopeU = 0;
    for (int u = 0; u < ResponseGrid.WET_BULB_C.length; u++) {
      coldestWater(u);
      boolean slopes = ResponseGrid.SLOPE_WET_BULB[slopeU] == u;
      for (int d = 0, slopeD = 0; d < ResponseGrid.DRYNESS.length; d++) {
        node(u, d);
        if (slopes && ResponseGrid.SLOPE_DRYNESS[slopeD] == d) {
          slope(u, d, ResponseGrid.slopeNode(slopeU, slopeD));
          slopeD++;
        }
      }
      if (slopes) {
        slopeU++;
      }
    }
    return nodes;
  }

  private void node(int u, int d) {
    enter(ResponseGrid.WET_BULB_C[u], ResponseGrid.DRYNESS[d], point.inletAir().pressurePa());
    int node = ResponseGrid.airNode(u, d);
    nodes.limitC()[node] = solver.coldestC();
    for (int x = 0; x < ResponseGrid.LOAD.length; x++) {
      column(u, x, nodes.blocks(), ResponseGrid.offset(node, x));
    }
    int fans = nodes.fanStates() * AlternatingFans.COEFFICIENTS;
    alternating.tabulate(
        solver, nodes.fanStates(), fullAir(), point.rangeK(), nodes.alternating(), node * fans);
  }

  /** Central difference over pressure. */
  private void slope(int u, int d, int slopeNode) {
    int fans = nodes.fanStates() * AlternatingFans.COEFFICIENTS;
    double[] block = new double[ResponseGrid.BLOCK];
    double[] fanBlock = new double[fans];
    for (int sign = -1; sign <= 1; sign += 2) {
      double weight = sign / (2 * ResponseGrid.PRESSURE_STEP);
      enter(
          ResponseGrid.WET_BULB_C[u],
          ResponseGrid.DRYNESS[d],
          (1 + sign * ResponseGrid.PRESSURE_STEP) * point.inletAir().pressurePa());
      nodes.limitSlopes()[slopeNode] += weight * solver.coldestC();
      for (int x = 0; x < ResponseGrid.SLOPE_LOAD.length; x++) {
        column(u, ResponseGrid.SLOPE_LOAD[x], block, 0);
        addTo(nodes.blockSlopes(), ResponseGrid.slopeOffset(slopeNode, x), weight, block);
      }
      alternating.tabulate(solver, nodes.fanStates(), fullAir(), point.rangeK(), fanBlock, 0);
      addTo(nodes.alternatingSlopes(), slopeNode * fans, weight, fanBlock);
    }
  }

  private static void addTo(double[] sums, int offset, double weight, double[] values) {
    for (int i = 0; i < values.length; i++) {
      sums[offset + i] += weight * values[i];
    }
  }

  private double fullAir() {
    return 1 / point.waterToAir() * fill.dryAirKgS() / point.dryAirFlowKgS();
  }

  private void coldestWater(int u) {
    double wetBulbC = ResponseGrid.WET_BULB_C[u];
    enter(wetBulbC, 0.2, point.inletAir().pressurePa());
    for (int x = 0; x < ResponseGrid.LOAD.length; x++) {
      double rangeK = ResponseGrid.LOAD[x] * point.rangeK();
      double coldC = solver.coldWaterFor(rangeK, fullAir(), wetBulbC + 0.8 * rangeK);
      double limit = solver.coldestC();
      double first = limit + BELOW_FULL_AIR * (coldC - limit);
      nodes.lowest()[u * ResponseGrid.LOAD.length + x] = ResponseGrid.floored(first) - limit;
    }
  }

  /** Lets air of a wet bulb over liquid water and a dryness into the solver. */
  private void enter(double wetBulbC, double dryness, double pressurePa) {
    solver = wetBulbC < FOG_BELOW_C ? foggy : ordinary;
    double vapourPa = SaturationPressure.overWaterPa(wetBulbC);
    double saturated = HumidityRatio.ofVapourPressure(vapourPa, pressurePa);
    double depression = dryness * ResponseGrid.depressionScaleK(wetBulbC, saturated);
    double dryBulbC = wetBulbC + depression;
    // equation 33
    double w =
        ((2501 - 2.326 * wetBulbC) * saturated - 1.006 * depression)
            / (2501 + 1.86 * dryBulbC - 4.186 * wetBulbC);
    solver.enter(w, MoistAir.enthalpyJPerKg(dryBulbC, w), pressurePa, wetBulbC);
  }

  private void column(int u, int x, double[] into, int offset) {
    double limit = solver.coldestC();
    double load = ResponseGrid.LOAD[x];
    double rangeK = load * point.rangeK();
    double first = nodes.lowest()[u * ResponseGrid.LOAD.length + x];
    double ratio = (ResponseGrid.HOTTEST_C - limit) / first;
    double full = fullAir();
    for (int k = 0; k < ResponseGrid.COLD; k++) {
      double coldC = limit + first * Math.pow(ratio, ChebyshevNodes.node(k));
      double air = solver.airToWaterFor(coldC + rangeK, coldC, guess(x, k, full), 1e3 * full);
      if (!(air < 1e9)) {
        throw new IllegalStateException(
            "no air cools water by %s K to %s °C at a limit of %s °C"
                .formatted(rangeK, coldC, limit));
      }
      knownAir[x][k] = air;
      knownShare[x][k] = solver.evaporatedShare();
      logAir[k] = Math.log(air / full / load);
      evaporationPerHeat[k] = solver.evaporatedShare() / rangeK;
    }
    ChebyshevNodes.powers(evaporationPerHeat, into, offset);
    ChebyshevNodes.powers(logAir, into, offset + ResponseGrid.COLD);
  }

  /** The air needed at the last node of the same load and cold water, or along this column. */
  private double guess(int x, int k, double full) {
    if (knownAir[x][k] > 0) {
      solver.expectEvaporatedShare(knownShare[x][k]);
      return knownAir[x][k];
    }
    if (k == 0) {
      return full;
    }
    return k == 1
        ? 0.7 * knownAir[x][0]
        : knownAir[x][k - 1] * knownAir[x][k - 1] / knownAir[x][k - 2];
  }
}
