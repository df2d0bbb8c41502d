package towerledger.balance;

import java.util.Arrays;

/**
 * What the load was calibrated to by heat of each grade: a meter that falls silent for a week is
 * what it was when it speaks again. Mutable.
 */
final class KnownLoads {

  /** Numbers kept for a grade: mean and variance of the load, then of the base. */
  private static final int KEPT = 4;

  /** By grade what is kept; NaN where heat of that grade was never seen. */
  private final double[] known;

  KnownLoads() {
    this(new double[EvidenceGrade.values().length * KEPT]);
    Arrays.fill(known, Double.NaN);
  }

  private KnownLoads(double[] known) {
    this.known = known;
  }

  KnownLoads copy() {
    return new KnownLoads(known.clone());
  }

  /** Lays down what heat of a grade is calibrated to. */
  void keep(int grade, Calibration calibration) {
    int at = grade * KEPT;
    known[at] = calibration.load();
    known[at + 1] = calibration.loadVariance();
    known[at + 2] = calibration.base();
    known[at + 3] = calibration.baseVariance();
  }

  /**
   * Takes up again what heat of a grade was calibrated to.
   *
   * @return whether it was known
   */
  boolean recall(int grade, Calibration calibration) {
    int at = grade * KEPT;
    if (Double.isNaN(known[at])) {
      return false;
    }
    calibration.setLoad(known[at], known[at + 1]);
    calibration.setBase(known[at + 2], known[at + 3]);
    return true;
  }

  /**
   * Becomes the mean of this and another.
   *
   * @param share weight of the other, 0 to 1
   */
  void mix(KnownLoads other, double share) {
    for (int i = 0; i < known.length; i += 2) {
      double apart = other.known[i] - known[i];
      known[i + 1] +=
          share * (other.known[i + 1] - known[i + 1]) + share * (1 - share) * apart * apart;
      known[i] += share * apart;
    }
  }
}
