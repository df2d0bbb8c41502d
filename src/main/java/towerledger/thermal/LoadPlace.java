package towerledger.thermal;

/**
 * Where the load of an hour lies among the nodes of a response table. Overwritten by the next hour.
 */
final class LoadPlace {

  final double[] weights = new double[Axis.CUBIC];

  /** First of the four nodes around the load. */
  int first;

  /** The node with slopes below the load. */
  int slope;

  /** Way to the next node with slopes, 0–1. */
  double slopeShare;

  /**
   * Finds the place of a load.
   *
   * @param load load over design load of the cells in service, within the table
   */
  void find(double load) {
    double logLoad = Math.log(load);
    int interval = ResponseGrid.LOG_LOAD.interval(logLoad);
    first = ResponseGrid.LOG_LOAD.window(interval);
    ResponseGrid.LOG_LOAD.cubic(first, logLoad, weights);
    slope = ResponseGrid.FEW_LOAD.interval(interval);
    slopeShare = ResponseGrid.FEW_LOAD.share(slope, logLoad);
  }

  /** Mean of the four numbers from {@code o} on by the weights of the load. */
  double mean(double[] from, int o) {
    return weights[0] * from[o]
        + weights[1] * from[o + 1]
        + weights[2] * from[o + 2]
        + weights[3] * from[o + 3];
  }

  /** The same of every second or third number: those of one kind where several stand together. */
  double mean(double[] from, int o, int step) {
    return weights[0] * from[o]
        + weights[1] * from[o + step]
        + weights[2] * from[o + 2 * step]
        + weights[3] * from[o + 3 * step];
  }

  /** Of numbers at the nodes with slopes, the one at the load. */
  double slope(double[] from, int o, int step) {
    int at = o + slope * step;
    return from[at] + slopeShare * (from[at + step] - from[at]);
  }
}
