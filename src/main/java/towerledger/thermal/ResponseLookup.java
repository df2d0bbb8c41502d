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

  // The sums below are added up over the air for each node of the load and only then over the load:
  // in the order in which ResponseSeries has to do it, so that both come to the same last digit.
  // What they add up stands in variables of its own: in arrays, it would be stored and loaded anew
  // with each addition.

  /** Coldest water of the table above the limit of cooling, K. */
  private double lowest() {
    double[] b = nodes.lowest();
    double s0 = 0;
    double s1 = 0;
    double s2 = 0;
    double s3 = 0;
    for (int j = 0; j < Axis.CUBIC; j++) {
      double w = air.wetBulbWeights[j];
      int o = (air.wetBulb + j) * ResponseGrid.LOAD.length + loads.first;
      s0 = fma(w, b[o], s0);
      s1 = fma(w, b[o + 1], s1);
      s2 = fma(w, b[o + 2], s2);
      s3 = fma(w, b[o + 3], s3);
    }
    return loads.mean(s0, s1, s2, s3);
  }

  /** Adds up the coordinates of both stops over the nodes around the hour. */
  private void gatherStops() {
    fullAirY = gathered(nodes.stops(), nodes.stopSlopes(), ResponseNodes.STOPS, 0);
    leastAirY = gathered(nodes.stops(), nodes.stopSlopes(), ResponseNodes.STOPS, 1);
  }

  /** Adds up the evaporation per range at a cold water. */
  private double evaporation(double y) {
    int piece = ColdWaterPieces.of(y);
    double[] from = nodes.evaporation()[piece];
    double[] slopes = nodes.evaporationSlopes()[piece];
    double c0 = gathered(from, slopes, ColdWaterPieces.COEFFICIENTS, 0);
    double c1 = gathered(from, slopes, ColdWaterPieces.COEFFICIENTS, 1);
    double c2 = gathered(from, slopes, ColdWaterPieces.COEFFICIENTS, 2);
    double way = ColdWaterPieces.within(piece, y);
    return c0 + way * (c1 + way * c2);
  }

  /**
   * One of the numbers held at every node, at the hour.
   *
   * @param step how many numbers stand at a node
   * @param which the one wanted
   */
  private double gathered(double[] b, double[] slopes, int step, int which) {
    double s0 = 0;
    double s1 = 0;
    double s2 = 0;
    double s3 = 0;
    for (int j = 0; j < Axis.CUBIC; j++) {
      for (int k = 0; k < Axis.CUBIC; k++) {
        double w = air.wetBulbWeights[j] * air.drynessWeights[k];
        int o = step * ResponseGrid.node(air.node(j, k), loads.first) + which;
        s0 = fma(w, b[o], s0);
        s1 = fma(w, b[o + step], s1);
        s2 = fma(w, b[o + 2 * step], s2);
        s3 = fma(w, b[o + 3 * step], s3);
      }
    }
    double lower = 0;
    double upper = 0;
    for (int corner = 0; corner < 4; corner++) {
      double w = air.slopeWeights[corner];
      int o = step * ResponseGrid.slopeNode(air.slopeNode(corner), loads.slope) + which;
      lower = fma(w, slopes[o], lower);
      upper = fma(w, slopes[o + step], upper);
    }
    return loads.mean(s0, s1, s2, s3) + loads.between(lower, upper);
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
