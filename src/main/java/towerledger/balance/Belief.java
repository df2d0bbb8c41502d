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
    double perNarrow = 1 / variance;
    double perWide = 1 / (variance + blunderVariance);
    double half = -0.5 * residual * residual;
    double sound = (1 - blunderOdds) * Math.exp(half * perNarrow) * Math.sqrt(perNarrow);
    double off = blunderOdds * Math.exp(half * perWide) * Math.sqrt(perWide);
    double sum = sound + off + 1e-300;
    return new Belief(Math.log(sum), (sound * perNarrow + off * perWide) / sum);
  }
}
