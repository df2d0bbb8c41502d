package towerledger.thermal;

import towerledger.psychrometrics.HumidityRatio;
import towerledger.psychrometrics.MoistAir;
import towerledger.psychrometrics.SaturationPressure;
import towerledger.thermal.fill.CounterflowFill;

/**
 * Computes the nodes of an open tower's response table by the Poppe method: for every node of wet
 * bulb, dryness, pressure and load, the evaporation per heat and the air needed over the cold
 * water, and from these what a look-up needs.
 */
final class ResponseBuilder {

  private static final int STEPS = 5;

  /** In colder air fog starts inside the fill, and the kink asks for shorter steps. */
  private static final double FOG_BELOW_C = -6;

  private static final int STEPS_IN_FOG = 8;
  private static final double TOLERANCE = 3e-4;

  /** Fans that alternate live on the difference of two states, which asks for more. */
  private static final double FAN_TOLERANCE = 3e-6;

  /** The coldest node lies this share of the approach at full air above the wet bulb. */
  private static final double BELOW_FULL_AIR = 0.92;

  private static final double LEAST_LOG_AIR = Math.log(WetTower.LEAST_AIR_SHARE);

  /** Beyond these coordinates the polynomial of the air is not trusted. */
  private static final double LOWEST_STOP = -0.3;

  private static final double HIGHEST_STOP = 1.05;

  private final OpenFill fill;
  private final DesignPoint point;
  private final CounterflowFill ordinary;
  private final CounterflowFill foggy;
  private CounterflowFill solver;
  private final ResponseNodes nodes;
  private final AlternatingFans alternating = new AlternatingFans();
  private final SolvedNearby solved = new SolvedNearby();
  private final double[] evaporationAtNode = new double[ChebyshevNodes.COUNT];
  private final double[] logAirAtNode = new double[ChebyshevNodes.COUNT];

  /** Polynomials over the cold-water coordinate of the column last computed. */
  private final double[] evaporation = new double[ChebyshevNodes.COUNT];

  private final double[] logAir = new double[ChebyshevNodes.COUNT];
  private final double[] stops = new double[ResponseNodes.STOPS];

  ResponseBuilder(OpenFill fill, TowerDesign design) {
    this.fill = fill;
    this.point = design.point();
    int states = AlternatingFans.states(design.fanControl());
    double tolerance = states == 0 ? TOLERANCE : FAN_TOLERANCE;
    this.ordinary = fill.quickSolver(STEPS, tolerance);
    this.foggy = fill.quickSolver(STEPS_IN_FOG, tolerance);
    this.solver = ordinary;
    this.nodes = ResponseNodes.empty(point.rangeK(), states);
  }

  ResponseNodes build() {
    int slopeU = 0;
    for (int u = 0; u < ResponseGrid.WET_BULB_C.size(); u++) {
      coldestWater(u);
      solved.begin();
      boolean slopes = ResponseGrid.SLOPE_WET_BULB[slopeU] == u;
      for (int d = 0, slopeD = 0; d < ResponseGrid.DRYNESS.size(); d++) {
        node(u, d);
        if (slopes && ResponseGrid.SLOPE_DRYNESS[slopeD] == d) {
          slope(u, d, ResponseGrid.slopeAirNode(slopeU, slopeD));
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
    enter(
        ResponseGrid.WET_BULB_C.node(u),
        ResponseGrid.DRYNESS.node(d),
        point.inletAir().pressurePa());
    int airNode = ResponseGrid.airNode(u, d);
    nodes.limitC()[airNode] = solver.coldestC();
    for (int x = 0; x < ResponseGrid.LOAD.length; x++) {
      column(u, d, x, false);
      int node = ResponseGrid.node(airNode, x);
      for (int i = 0; i < ResponseNodes.STOPS; i++) {
        nodes.stops()[ResponseNodes.STOPS * node + i] = stops[i];
      }
      for (int piece = 0; piece < ColdWaterPieces.COUNT; piece++) {
        ColdWaterPieces.cut(
            evaporation, piece, nodes.evaporation()[piece], ColdWaterPieces.COEFFICIENTS * node);
      }
    }
    int fans = nodes.fanStates() * AlternatingFans.COEFFICIENTS;
    alternating.tabulate(
        solver, nodes.fanStates(), fullAir(), point.rangeK(), nodes.alternating(), airNode * fans);
  }

  /** Central difference over pressure. */
  private void slope(int u, int d, int slopeAirNode) {
    int fans = nodes.fanStates() * AlternatingFans.COEFFICIENTS;
    double[] cut = new double[ColdWaterPieces.COEFFICIENTS];
    double[] fanBlock = new double[fans];
    for (int sign = -1; sign <= 1; sign += 2) {
      double weight = sign / (2 * ResponseGrid.PRESSURE_STEP);
      enter(
          ResponseGrid.WET_BULB_C.node(u),
          ResponseGrid.DRYNESS.node(d),
          (1 + sign * ResponseGrid.PRESSURE_STEP) * point.inletAir().pressurePa());
      nodes.limitSlopes()[slopeAirNode] += weight * solver.coldestC();
      for (int x = 0; x < ResponseGrid.SLOPE_LOAD.length; x++) {
        column(u, d, ResponseGrid.SLOPE_LOAD[x], true);
        int node = ResponseGrid.slopeNode(slopeAirNode, x);
        addTo(nodes.stopSlopes(), ResponseNodes.STOPS * node, weight, stops);
        for (int piece = 0; piece < ColdWaterPieces.COUNT; piece++) {
          ColdWaterPieces.cut(evaporation, piece, cut, 0);
          addTo(nodes.evaporationSlopes()[piece], ColdWaterPieces.COEFFICIENTS * node, weight, cut);
        }
      }
      alternating.tabulate(solver, nodes.fanStates(), fullAir(), point.rangeK(), fanBlock, 0);
      addTo(nodes.alternatingSlopes(), slopeAirNode * fans, weight, fanBlock);
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
    double wetBulbC = ResponseGrid.WET_BULB_C.node(u);
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

  /** Fills {@link #evaporation} and {@link #stops} for one load in the air that entered. */
  private void column(int u, int d, int x, boolean nearby) {
    double limit = solver.coldestC();
    double load = ResponseGrid.LOAD[x];
    double rangeK = load * point.rangeK();
    double first = nodes.lowest()[u * ResponseGrid.LOAD.length + x];
    double ratio = (ResponseGrid.HOTTEST_C - limit) / first;
    double full = fullAir();
    for (int k = 0; k < ChebyshevNodes.COUNT; k++) {
      double coldC = limit + first * Math.pow(ratio, ChebyshevNodes.node(k));
      double air = nearby ? airNearby(d, x, k, coldC, rangeK) : air(d, x, k, coldC, rangeK);
      if (!(air < 1e9)) {
        throw new IllegalStateException(
            "no air cools water by %s K to %s °C at a limit of %s °C"
                .formatted(rangeK, coldC, limit));
      }
      logAirAtNode[k] = Math.log(air / full);
      evaporationAtNode[k] = solver.evaporatedShare() / rangeK;
    }
    ChebyshevNodes.powers(evaporationAtNode, evaporation, 0);
    ChebyshevNodes.powers(logAirAtNode, logAir, 0);
    stops[0] = stop(0, 0);
    stops[1] = stop(LEAST_LOG_AIR, stops[0]);
  }

  /**
   * Cold-water coordinate at which the air is as given: Newton's method on the polynomial, and a
   * straight line beyond the reach of the table.
   *
   * @param logAirShare logarithm of the air over full air
   */
  private double stop(double logAirShare, double start) {
    double y = Math.max(LOWEST_STOP, Math.min(HIGHEST_STOP, start));
    double step = 0;
    for (int i = 0; i < 20; i++) {
      step =
          (ChebyshevNodes.value(logAir, 0, y) - logAirShare) / ChebyshevNodes.slope(logAir, 0, y);
      double next = y - Math.max(-0.4, Math.min(0.4, step));
      next = Math.max(LOWEST_STOP, Math.min(HIGHEST_STOP, next));
      double moved = Math.abs(next - y);
      y = next;
      if (moved < 1e-7) {
        break;
      }
    }
    return y == LOWEST_STOP || y == HIGHEST_STOP ? y - step : y;
  }

  /** Solves for the air at a node, starting from those solved around it, and keeps it. */
  private double air(int d, int x, int k, double coldC, double rangeK) {
    double full = fullAir();
    int place = SolvedNearby.place(x, k);
    double guess = solved.foretoldAir(d, place);
    if (guess > 0) {
      solver.expect(solved.foretoldShare(d, place), solved.foretoldSlope(d, place));
    } else {
      guess = k == 0 ? full : 0.7 * solved.air(d, place - 1);
    }
    double air = solver.airToWaterFor(coldC + rangeK, coldC, guess, 1e3 * full);
    solved.put(d, place, air, solver.evaporatedShare(), solver.relativeSlope());
    return air;
  }

  /** As {@link #air}, where the pressure alone differs from a node already solved. */
  private double airNearby(int d, int x, int k, double coldC, double rangeK) {
    int place = SolvedNearby.place(x, k);
    solver.expect(solved.share(d, place), solved.slope(d, place));
    return solver.airToWaterFor(coldC + rangeK, coldC, solved.air(d, place), 1e3 * fullAir());
  }
}
