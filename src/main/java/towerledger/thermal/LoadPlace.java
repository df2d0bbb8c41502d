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

  /** Mean of numbers at the four nodes around the load. */
  double mean(double at0, double at1, double at2, double at3) {
    return weights[0] * at0 + weights[1] * at1 + weights[2] * at2 + weights[3] * at3;
  }

  /** Between numbers at the two nodes with slopes. */
  double between(double lower, double upper) {
    return lower + slopeShare * (upper - lower);
  }
}
