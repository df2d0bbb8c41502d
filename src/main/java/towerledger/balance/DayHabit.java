package towerledger.balance;

/**
 * How far the days of one tower differ from the model's, learned along one story: a normal estimate
 * for each figure of a {@link DayProfile}, independent of each other. Mutable.
 */
final class DayHabit {

  private final double[] mean = new double[DayProfile.FIGURES];
  private final double[] variance = new double[DayProfile.FIGURES];

  double mean(int figure) {
    return mean[figure];
  }

  double variance(int figure) {
    return variance[figure];
  }

  void widen(int figure, double by) {
    variance[figure] += by;
  }

  DayHabit copy() {
    DayHabit copy = new DayHabit();
    System.arraycopy(mean, 0, copy.mean, 0, mean.length);
    System.arraycopy(variance, 0, copy.variance, 0, mean.length);
    return copy;
  }

  /** Becomes the normal estimate of a mixture; {@code share} is the weight of the other. */
  void mix(DayHabit other, double share) {
    for (int f = 0; f < mean.length; f++) {
      double apart = other.mean[f] - mean[f];
      variance[f] +=
          share * (other.variance[f] - variance[f]) + share * (1 - share) * apart * apart;
      mean[f] += share * apart;
    }
  }

  /**
   * Takes in one measurement that may now and then be a blunder.
   *
   * @param residual measured less predicted
   * @param slope derivative of the prediction by the habit
   * @param noise variance of the measurement
   * @return log of how likely the measurement was, but for a constant
   */
  double update(
      int figure,
      double residual,
      double slope,
      double noise,
      double blunderOdds,
      double blunderVariance) {
    double gain = variance[figure] * slope;
    double s = noise + slope * gain;
    Belief belief = Belief.in(residual, s, blunderOdds, blunderVariance);
    mean[figure] += gain * belief.weight() * residual;
    variance[figure] = Math.max(0, variance[figure] - gain * gain * belief.weight());
    return belief.logLikelihood();
  }
}
