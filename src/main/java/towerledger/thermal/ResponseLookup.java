package towerledger.thermal;

import static java.lang.Math.fma;

/**
 * Reads a response table. Holds working memory, so that an object serves one thread and one series.
 *
 * <p>The cold water is held at its set-point, or floats between two stops: what all the air can do,
 * and what the least still does. The nodes around an hour give both stops; the cold-water
 * coordinate y follows, and the piece of the table in which it lies gives the evaporation.
 */
final class ResponseLookup {

  private static final double[] NONE = {};

  private final ResponseNodes nodes;
  private final AirPlace air = new AirPlace();
  private final LoadPlace loads = new LoadPlace();
  private final double[] fans;

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
    air.find(dryBulbC, wetBulbC, pressureChange, pressurePa);
    loads.find(load);
    double limitC = air.limitC(nodes);
    gatherStops();
    double y = ColdWater.coordinate(limitC, lowest(), setPointC, fullAirY, leastAirY);
    if (nodes.fanStates() == 0 || y <= fullAirY || y >= leastAirY) {
      return evaporation(y);
    }
    gatherFans();
    return AlternatingFans.evaporationPerRange(
        fans, nodes.fanStates(), limitC, setPointC, load * nodes.rangeK(), nodes.rangeK());
  }

  /** Coldest water of the table above the limit of cooling, K. */
  private double lowest() {
    double[] from = nodes.lowest();
    double sum = 0;
    for (int j = 0; j < Axis.CUBIC; j++) {
      sum +=
          air.wetBulbWeights[j]
              * loads.mean(from, (air.wetBulb + j) * ResponseGrid.LOAD.length + loads.first);
    }
    return sum;
  }

  // The two sums below hold what they add up in variables of their own: in arrays, the compiler
  // would store and load it 64 times.

  /** Adds up the coordinates of both stops over the nodes around the hour. */
  private void gatherStops() {
    double[] b = nodes.stops();
    double x0 = loads.weights[0];
    double x1 = loads.weights[1];
    double x2 = loads.weights[2];
    double x3 = loads.weights[3];
    double full = 0;
    double least = 0;
    for (int j = 0; j < Axis.CUBIC; j++) {
      for (int k = 0; k < Axis.CUBIC; k++) {
        double w = air.wetBulbWeights[j] * air.drynessWeights[k];
        int o = ResponseNodes.STOPS * ResponseGrid.node(air.node(j, k), loads.first);
        full = fma(w, fma(x3, b[o + 6], fma(x2, b[o + 4], fma(x1, b[o + 2], x0 * b[o]))), full);
        least =
            fma(w, fma(x3, b[o + 7], fma(x2, b[o + 5], fma(x1, b[o + 3], x0 * b[o + 1]))), least);
      }
    }
    double[] slopes = nodes.stopSlopes();
    for (int corner = 0; corner < 4; corner++) {
      int o = ResponseNodes.STOPS * ResponseGrid.slopeNode(air.slopeNode(corner), loads.slope);
      double w1 = air.slopeWeights[corner] * loads.slopeShare;
      double w0 = air.slopeWeights[corner] - w1;
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
    double x0 = loads.weights[0];
    double x1 = loads.weights[1];
    double x2 = loads.weights[2];
    double x3 = loads.weights[3];
    double s0 = 0;
    double s1 = 0;
    double s2 = 0;
    for (int j = 0; j < Axis.CUBIC; j++) {
      for (int k = 0; k < Axis.CUBIC; k++) {
        double w = air.wetBulbWeights[j] * air.drynessWeights[k];
        int o = ColdWaterPieces.COEFFICIENTS * ResponseGrid.node(air.node(j, k), loads.first);
        s0 = fma(w, fma(x3, b[o + 9], fma(x2, b[o + 6], fma(x1, b[o + 3], x0 * b[o]))), s0);
        s1 = fma(w, fma(x3, b[o + 10], fma(x2, b[o + 7], fma(x1, b[o + 4], x0 * b[o + 1]))), s1);
        s2 = fma(w, fma(x3, b[o + 11], fma(x2, b[o + 8], fma(x1, b[o + 5], x0 * b[o + 2]))), s2);
      }
    }
    double[] slopes = nodes.evaporationSlopes()[piece];
    for (int corner = 0; corner < 4; corner++) {
      int o =
          ColdWaterPieces.COEFFICIENTS * ResponseGrid.slopeNode(air.slopeNode(corner), loads.slope);
      double w1 = air.slopeWeights[corner] * loads.slopeShare;
      double w0 = air.slopeWeights[corner] - w1;
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
            air.node(j, k) * length,
            air.wetBulbWeights[j] * air.drynessWeights[k]);
      }
    }
    for (int corner = 0; corner < 4; corner++) {
      addFans(nodes.alternatingSlopes(), air.slopeNode(corner) * length, air.slopeWeights[corner]);
    }
  }

  private void addFans(double[] from, int offset, double weight) {
    for (int i = 0; i < fans.length; i++) {
      fans[i] += weight * from[offset + i];
    }
  }
}
