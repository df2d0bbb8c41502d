package towerledger.statistics;

/**
 * Two-sided tabular CUSUM: adds up what lies beyond an allowance on either side of the target, and
 * so finds small lasting shifts.
 *
 * <p>Source: Montgomery, Introduction to Statistical Quality Control, chapter 9 (eqs 9.2, 9.3, 9.5;
 * numbers from memory of the sixth edition, checked against its Table 9.1).
 */
public final class TabularCusum {

  private final double target;
  private final double allowance;
  private final double limit;
  private double upper;
  private double lower;
  private int upperRun;
  private int lowerRun;
  private int count;

  /**
   * A chart at rest.
   *
   * @param target value in control
   * @param allowance slack, usually half the shift worth finding, not negative
   * @param limit decision interval, above 0
   */
  public TabularCusum(double target, double allowance, double limit) {
    if (!(allowance >= 0) || !(limit > 0)) {
      throw new IllegalArgumentException(
          "allowance of %s and limit of %s; the first must not be negative, the second above 0"
              .formatted(allowance, limit));
    }
    this.target = target;
    this.allowance = allowance;
    this.limit = limit;
  }

  /** Takes the next value in and says whether either side now exceeds the limit. */
  public boolean add(double value) {
    count++;
    upper = Math.max(0, upper + value - target - allowance);
    lower = Math.max(0, lower + target - value - allowance);
    upperRun = upper > 0 ? upperRun + 1 : 0;
    lowerRun = lower > 0 ? lowerRun + 1 : 0;
    return signalled();
  }

  /** Whether either sum exceeds the limit. */
  public boolean signalled() {
    return upper > limit || lower > limit;
  }

  /** Sum above the target. */
  public double upper() {
    return upper;
  }

  /** Sum below the target, as a positive number. */
  public double lower() {
    return lower;
  }

  /** How many values in a row kept the larger sum above nothing. */
  public int run() {
    return upper >= lower ? upperRun : lowerRun;
  }

  /** Number of the last value before the shift, counted from 1; 0 when it began with the first. */
  public int lastBeforeShift() {
    return count - run();
  }

  /** Estimated level after the shift (eq. 9.5); the target while no sum is above nothing. */
  public double shiftedLevel() {
    if (run() == 0) {
      return target;
    }
    return upper >= lower
        ? target + allowance + upper / upperRun
        : target - allowance - lower / lowerRun;
  }
}
