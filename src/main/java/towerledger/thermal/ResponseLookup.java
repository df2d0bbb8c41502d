package towerledger.thermal;

import static java.lang.Math.fma;

import towerledger.psychrometrics.HumidityRatio;
import towerledger.psychrometrics.SaturationPressure;
import towerledger.thermal.fill.TabulatedProperties;

/**
 * Reads a response table. Holds working memory, so that an object serves one thread and one series.
 *
 * <p>The cold water is held at its set-point, or floats between two stops: what all the air can do,
 * and what the least still does. The nodes around an hour give both stops; the cold-water
 * coordinate y follows, and the piece of the table in which it lies gives the evaporation.
 */
final class ResponseLookup {

  /** Set-points this near to the limit of cooling take all the air, as a share of the lowest. */
  private static final double NEAR_LIMIT = 0.3;

  private static final double[] NONE = {};

  private final ResponseNodes nodes;
  private final double[] wetBulbWeights = new double[Axis.CUBIC];
  private final double[] drynessWeights = new double[Axis.CUBIC];
  private final double[] loadWeights = new double[Axis.CUBIC];
  private final double[] fans;

  /** First of the nodes around the hour: wet bulb, dryness, load. */
  private int u;

  private int d;
  private int x;

  /** The nodes with slopes at the lower side of the hour, and the way to the next. */
  private int slopeNode;

  private int slopeX;
  private final double[] slopeWeights = new double[4];
  private double slopeShareX;

  private double fullAirY;
  private double leastAirY;

  ResponseLookup(ResponseNodes nodes) {
    this.nodes = nodes;
    int states = nodes.fanStates();
    this.fans = states == 0 ? NONE : new double[states * AlternatingFans.COEFFICIENTS];
  }

  /**
   * Evaporation over water and range, 1/K.
   *
   * @param load load over design load of the cells in service, within the table
   * @param pressureChange pressure over design pressure, less one
   */
  double perRange(
      double load,
      double dryBulbC,
      double wetBulbC,
      double pressureChange,
      double pressurePa,
      double setPointC) {
    double liquidC = wetBulbC < 0 ? liquidWetBulbC(dryBulbC, wetBulbC, pressurePa) : wetBulbC;
    double vapourPa = TabulatedProperties.saturationPressurePa(liquidC);
    double saturated = HumidityRatio.MOLAR_MASS_RATIO * vapourPa / (pressurePa - vapourPa);
    double dryness = ResponseGrid.dryness(dryBulbC - liquidC, liquidC, saturated);
    locate(liquidC, dryness, Math.log(load), pressureChange);
    double limitC = limit();
    double lowest = lowest();
    double logRatio = Math.log((ResponseGrid.HOTTEST_C - limitC) / lowest);
    gatherStops();
    double pull = setPointC - limitC;
    if (pull <= NEAR_LIMIT * lowest) {
      return evaporation(fullAirY);
    }
    double y = Math.log(pull / lowest) / logRatio;
    if (y < fullAirY) {
      return evaporation(fullAirY);
    }
    if (y > leastAirY) {
      if (limitC >= WetTower.COLDEST_BASIN_C) {
        return evaporation(leastAirY);
      }
      double floor = Math.log((WetTower.COLDEST_BASIN_C - limitC) / lowest) / logRatio;
      return evaporation(Math.max(leastAirY, floor));
    }
    if (nodes.fanStates() == 0) {
      return evaporation(y);
    }
    gatherFans();
    return AlternatingFans.evaporationPerRange(
        fans, nodes.fanStates(), limitC, setPointC, load * nodes.rangeK(), nodes.rangeK());
  }

  /** Wet bulb over liquid water from one over ice: equation 35, then Newton's method on 33. */
  private static double liquidWetBulbC(double dryBulbC, double iceC, double pressurePa) {
    double icePa = TabulatedProperties.saturationPressureOverIcePa(iceC);
    double overIce = HumidityRatio.MOLAR_MASS_RATIO * icePa / (pressurePa - icePa);
    double w =
        ((2830 - 0.24 * iceC) * overIce - 1.006 * (dryBulbC - iceC))
            / (2830 + 1.86 * dryBulbC - 2.1 * iceC);
    double t = iceC;
    for (int i = 0; i < 6; i++) {
      double vapourPa = TabulatedProperties.saturationPressurePa(t);
      double saturated = HumidityRatio.MOLAR_MASS_RATIO * vapourPa / (pressurePa - vapourPa);
      double f =
          (2501 - 2.326 * t) * saturated
              - 1.006 * (dryBulbC - t)
              - w * (2501 + 1.86 * dryBulbC - 4.186 * t);
      double slope = 2501 * saturated * SaturationPressure.logSlopeOverWater(t) + 1.006;
      double step = f / slope;
      t -= step;
      if (Math.abs(step) < 1e-3) {
        break;
      }
    }
    return t;
  }

  /** Finds the nodes around an hour and their weights. */
  private void locate(double wetBulbC, double dryness, double logLoad, double pressureChange) {
    int intervalU = ResponseGrid.WET_BULB_C.interval(wetBulbC);
    int intervalD = ResponseGrid.DRYNESS.interval(dryness);
    int intervalX = ResponseGrid.LOG_LOAD.interval(logLoad);
    u = ResponseGrid.WET_BULB_C.window(intervalU);
    d = ResponseGrid.DRYNESS.window(intervalD);
    x = ResponseGrid.LOG_LOAD.window(intervalX);
    ResponseGrid.WET_BULB_C.cubic(u, wetBulbC, wetBulbWeights);
    ResponseGrid.DRYNESS.cubic(d, dryness, drynessWeights);
    ResponseGrid.LOG_LOAD.cubic(x, logLoad, loadWeights);
    int fewU = ResponseGrid.FEW_WET_BULB.interval(intervalU);
    int fewD = ResponseGrid.FEW_DRYNESS.interval(intervalD);
    slopeX = ResponseGrid.FEW_LOAD.interval(intervalX);
    double shareU = ResponseGrid.FEW_WET_BULB.share(fewU, wetBulbC);
    double shareD = ResponseGrid.FEW_DRYNESS.share(fewD, dryness);
    slopeShareX = ResponseGrid.FEW_LOAD.share(slopeX, logLoad);
    slopeNode = ResponseGrid.slopeAirNode(fewU, fewD);
    double upper = pressureChange * shareU;
    double lower = pressureChange - upper;
    slopeWeights[0] = lower * (1 - shareD);
    slopeWeights[1] = lower * shareD;
    slopeWeights[2] = upper * (1 - shareD);
    slopeWeights[3] = upper * shareD;
  }

  /** The node with slopes at a corner of wet bulb and dryness, 0 … 3. */
  private int slopeNode(int corner) {
    return slopeNode + (corner >> 1) * ResponseGrid.SLOPE_DRYNESS.length + (corner & 1);
  }

  /** Coldest water of the table above the limit of cooling, K. */
  private double lowest() {
    double[] from = nodes.lowest();
    double sum = 0;
    for (int j = 0; j < Axis.CUBIC; j++) {
      sum += wetBulbWeights[j] * mean(from, (u + j) * ResponseGrid.LOAD.length + x, loadWeights);
    }
    return sum;
  }

  /** Limit of cooling, °C. */
  private double limit() {
    double[] from = nodes.limitC();
    double[] slopes = nodes.limitSlopes();
    double sum = 0;
    for (int j = 0; j < Axis.CUBIC; j++) {
      sum += wetBulbWeights[j] * mean(from, ResponseGrid.airNode(u + j, d), drynessWeights);
      sum += slopeWeights[j] * slopes[slopeNode(j)];
    }
    return sum;
  }

  private static double mean(double[] from, int o, double[] weights) {
    return weights[0] * from[o]
        + weights[1] * from[o + 1]
        + weights[2] * from[o + 2]
        + weights[3] * from[o + 3];
  }

  // The two sums below hold what they add up in variables of their own: in arrays, the compiler
  // would store and load it 64 times.

  /** Adds up the coordinates of both stops over the nodes around the hour. */
  private void gatherStops() {
    double[] b = nodes.stops();
    double x0 = loadWeights[0];
    double x1 = loadWeights[1];
    double x2 = loadWeights[2];
    double x3 = loadWeights[3];
    double full = 0;
    double least = 0;
    for (int j = 0; j < Axis.CUBIC; j++) {
      for (int k = 0; k < Axis.CUBIC; k++) {
        double w = wetBulbWeights[j] * drynessWeights[k];
        int o = ResponseNodes.STOPS * ResponseGrid.node(ResponseGrid.airNode(u + j, d + k), x);
        full = fma(w, fma(x3, b[o + 6], fma(x2, b[o + 4], fma(x1, b[o + 2], x0 * b[o]))), full);
        least =
            fma(w, fma(x3, b[o + 7], fma(x2, b[o + 5], fma(x1, b[o + 3], x0 * b[o + 1]))), least);
      }
    }
    double[] slopes = nodes.stopSlopes();
    for (int corner = 0; corner < 4; corner++) {
      int o = ResponseNodes.STOPS * ResponseGrid.slopeNode(slopeNode(corner), slopeX);
      double w1 = slopeWeights[corner] * slopeShareX;
      double w0 = slopeWeights[corner] - w1;
      full += w0 * slopes[o] + w1 * slopes[o + 2];
      least += w0 * slopes[o + 1] + w1 * slopes[o + 3];
    }
    fullAirY = full;
    leastAirY = least;
  }

  /** Adds up the evaporation per range at a cold water. */
  private double evaporation(double y) {
    int piece = ColdWaterPieces.of(y);
    double[] b = nodes.evaporation()[piece];
    double x0 = loadWeights[0];
    double x1 = loadWeights[1];
    double x2 = loadWeights[2];
    double x3 = loadWeights[3];
    double s0 = 0;
    double s1 = 0;
    double s2 = 0;
    for (int j = 0; j < Axis.CUBIC; j++) {
      for (int k = 0; k < Axis.CUBIC; k++) {
        double w = wetBulbWeights[j] * drynessWeights[k];
        int o =
            ColdWaterPieces.COEFFICIENTS * ResponseGrid.node(ResponseGrid.airNode(u + j, d + k), x);
        s0 = fma(w, fma(x3, b[o + 9], fma(x2, b[o + 6], fma(x1, b[o + 3], x0 * b[o]))), s0);
        s1 = fma(w, fma(x3, b[o + 10], fma(x2, b[o + 7], fma(x1, b[o + 4], x0 * b[o + 1]))), s1);
        s2 = fma(w, fma(x3, b[o + 11], fma(x2, b[o + 8], fma(x1, b[o + 5], x0 * b[o + 2]))), s2);
      }
    }
    double[] slopes = nodes.evaporationSlopes()[piece];
    for (int corner = 0; corner < 4; corner++) {
      int o = ColdWaterPieces.COEFFICIENTS * ResponseGrid.slopeNode(slopeNode(corner), slopeX);
      double w1 = slopeWeights[corner] * slopeShareX;
      double w0 = slopeWeights[corner] - w1;
      s0 += w0 * slopes[o] + w1 * slopes[o + 3];
      s1 += w0 * slopes[o + 1] + w1 * slopes[o + 4];
      s2 += w0 * slopes[o + 2] + w1 * slopes[o + 5];
    }
    double way = ColdWaterPieces.within(piece, y);
    return s0 + way * (s1 + way * s2);
  }

  /** Adds up the coefficients of fans that alternate. */
  private void gatherFans() {
    int length = fans.length;
    for (int i = 0; i < length; i++) {
      fans[i] = 0;
    }
    for (int j = 0; j < Axis.CUBIC; j++) {
      for (int k = 0; k < Axis.CUBIC; k++) {
        addFans(
            nodes.alternating(),
            ResponseGrid.airNode(u + j, d + k) * length,
            wetBulbWeights[j] * drynessWeights[k]);
      }
    }
    for (int corner = 0; corner < 4; corner++) {
      addFans(nodes.alternatingSlopes(), slopeNode(corner) * length, slopeWeights[corner]);
    }
  }

  private void addFans(double[] from, int offset, double weight) {
    for (int i = 0; i < fans.length; i++) {
      fans[i] += weight * from[offset + i];
    }
  }
}
