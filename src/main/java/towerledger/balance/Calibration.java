package towerledger.balance;

/**
 * What is estimated of a system along one story, with its covariance: normal, four quantities,
 * taken in one measurement at a time (a Kalman filter whose measurements may be blunders). Mutable.
 */
final class Calibration {

  /** Log of the load multiplier. */
  static final int LOAD = 0;

  /** Log of the habitual basin concentration over the aim. */
  static final int HABIT = 1;

  /** Scatter of model and evidence at this time of the year, in standard deviations. */
  static final int SCATTER = 2;

  /** Load that the guessed shape lacks at all hours of running, as a part of the reference load. */
  static final int BASE = 3;

  private static final int N = 4;

  private final double[] mean = new double[N];
  private final double[] cov = new double[N * N];
  private final double[] gain = new double[N];

  double mean(int quantity) {
    return mean[quantity];
  }

  double variance(int quantity) {
    return cov[quantity * N + quantity];
  }

  void shift(int quantity, double by) {
    mean[quantity] += by;
  }

  void widen(int quantity, double variance) {
    cov[quantity * N + quantity] += variance;
  }

  Calibration copy() {
    Calibration copy = new Calibration();
    System.arraycopy(mean, 0, copy.mean, 0, N);
    System.arraycopy(cov, 0, copy.cov, 0, N * N);
    return copy;
  }

  /** Lets a quantity fall back towards nothing: a part of it is kept, new variance is taken up. */
  void fade(int quantity, double kept, double variance) {
    mean[quantity] *= kept;
    for (int i = 0; i < N; i++) {
      cov[quantity * N + i] *= kept;
      cov[i * N + quantity] *= kept;
    }
    cov[quantity * N + quantity] += variance;
  }

  /**
   * Takes in one measurement that may now and then be a blunder.
   *
   * @param residual measured less predicted
   * @param slope derivative of the prediction by each quantity
   * @param variance of the measurement
   * @param blunder probability of a blunder
   * @param blunderVariance variance that a blunder adds
   * @return log of how likely the measurement was, but for a constant
   */
  double update(
      double residual, double[] slope, double variance, double blunder, double blunderVariance) {
    double s = variance;
    for (int i = 0; i < N; i++) {
      double sum = 0;
      for (int j = 0; j < N; j++) {
        sum += cov[i * N + j] * slope[j];
      }
      gain[i] = sum;
      s += slope[i] * sum;
    }
    Belief belief = Belief.in(residual, s, blunder, blunderVariance);
    for (int i = 0; i < N; i++) {
      mean[i] += gain[i] * belief.weight() * residual;
      for (int j = 0; j < N; j++) {
        cov[i * N + j] -= gain[i] * gain[j] * belief.weight();
      }
    }
    return belief.logLikelihood();
  }

  /**
   * Becomes the normal estimate of a mixture of this and another.
   *
   * @param share weight of the other, 0 to 1
   */
  void mix(Calibration other, double share) {
    for (int i = 0; i < N; i++) {
      gain[i] = other.mean[i] - mean[i];
    }
    for (int i = 0; i < N; i++) {
      for (int j = 0; j < N; j++) {
        int at = i * N + j;
        cov[at] += share * (other.cov[at] - cov[at]) + share * (1 - share) * gain[i] * gain[j];
      }
    }
    for (int i = 0; i < N; i++) {
      mean[i] += share * gain[i];
    }
  }
}
