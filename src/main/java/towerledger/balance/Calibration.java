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

  /** Places of the variances among the covariances. */
  private static final int[] DIAGONAL = {4, 8, 11, 13};

  /** Place of the covariance of each two quantities. */
  private static final int[] PLACE = {4, 5, 6, 7, 5, 8, 9, 10, 6, 9, 11, 12, 7, 10, 12, 13};

  /** The means, and behind them the covariances, each once: 00 01 02 03, 11 12 13, 22 23, 33. */
  private final double[] state;

  Calibration() {
    this(new double[14]);
  }

  private Calibration(double[] state) {
    this.state = state;
  }

  double mean(int quantity) {
    return state[quantity];
  }

  double variance(int quantity) {
    return state[DIAGONAL[quantity]];
  }

  void shift(int quantity, double by) {
    state[quantity] += by;
  }

  void widen(int quantity, double variance) {
    state[DIAGONAL[quantity]] += variance;
  }

  /** Forgets what was learned of a quantity, and what the others have to do with it. */
  void set(int quantity, double mean, double variance) {
    for (int i = 0; i < N; i++) {
      state[PLACE[quantity * N + i]] = 0;
    }
    state[quantity] = mean;
    state[DIAGONAL[quantity]] = variance;
  }

  Calibration copy() {
    return new Calibration(state.clone());
  }

  /** Lets a quantity fall back towards nothing: a part of it is kept, new variance is taken up. */
  void fade(int quantity, double kept, double variance) {
    int own = DIAGONAL[quantity];
    if (kept == 1) {
      state[own] += variance;
      return;
    }
    state[quantity] *= kept;
    for (int i = 0; i < N; i++) {
      state[PLACE[quantity * N + i]] *= kept;
    }
    state[own] = state[own] * kept + variance;
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
    double[] c = state;
    double s0 = slope[0];
    double s1 = slope[1];
    double s2 = slope[2];
    double s3 = slope[3];
    double gain0 = c[4] * s0 + c[5] * s1 + c[6] * s2 + c[7] * s3;
    double gain1 = c[5] * s0 + c[8] * s1 + c[9] * s2 + c[10] * s3;
    double gain2 = c[6] * s0 + c[9] * s1 + c[11] * s2 + c[12] * s3;
    double gain3 = c[7] * s0 + c[10] * s1 + c[12] * s2 + c[13] * s3;
    double whole = variance + s0 * gain0 + s1 * gain1 + s2 * gain2 + s3 * gain3;
    Belief belief = Belief.in(residual, whole, blunder, blunderVariance);
    double weight = belief.weight();
    double moved = weight * residual;
    c[0] += gain0 * moved;
    c[1] += gain1 * moved;
    c[2] += gain2 * moved;
    c[3] += gain3 * moved;
    c[4] -= gain0 * gain0 * weight;
    c[5] -= gain0 * gain1 * weight;
    c[6] -= gain0 * gain2 * weight;
    c[7] -= gain0 * gain3 * weight;
    c[8] -= gain1 * gain1 * weight;
    c[9] -= gain1 * gain2 * weight;
    c[10] -= gain1 * gain3 * weight;
    c[11] -= gain2 * gain2 * weight;
    c[12] -= gain2 * gain3 * weight;
    c[13] -= gain3 * gain3 * weight;
    return belief.logLikelihood();
  }

  /**
   * Becomes the normal estimate of a mixture of this and another.
   *
   * @param share weight of the other, 0 to 1
   */
  void mix(Calibration other, double share) {
    double apart = share * (1 - share);
    for (int i = 0; i < N; i++) {
      for (int j = i; j < N; j++) {
        int at = PLACE[i * N + j];
        double spread = (other.state[i] - state[i]) * (other.state[j] - state[j]);
        state[at] += share * (other.state[at] - state[at]) + apart * spread;
      }
    }
    for (int i = 0; i < N; i++) {
      state[i] += share * (other.state[i] - state[i]);
    }
  }
}
