package towerledger.balance;

/**
 * How far one measurement is believed that may now and then be a blunder: a mixture of a narrow and
 * a wide normal distribution.
 *
 * @param logLikelihood log of how likely the measurement was, but for a constant
 * @param weight what stands in the place of 1/variance when an estimate is moved by it
 */
record Belief(double logLikelihood, double weight) {

  /**
   * The belief in a measurement.
   *
   * @param residual measured less predicted
   * @param variance of the residual where it is no blunder, above 0
   * @param blunderOdds probability of a blunder
   * @param blunderVariance variance that a blunder adds
   */
  static Belief in(double residual, double variance, double blunderOdds, double blunderVariance) {
    double wide = variance + blunderVariance;
    double sound =
        (1 - blunderOdds) * Math.exp(-0.5 * residual * residual / variance) / Math.sqrt(variance);
    double off = blunderOdds * Math.exp(-0.5 * residual * residual / wide) / Math.sqrt(wide);
    double sum = sound + off + 1e-300;
    return new Belief(Math.log(sum), (sound / variance + off / wide) / sum);
  }
}
