package towerledger.statistics;

/**
 * The likeliest instant of a lasting shift in the mean of a series of independent values of known
 * variance (maximum likelihood after Hinkley 1970, from memory).
 *
 * @param index first value after the shift, counted from 0
 * @param before mean before
 * @param after mean after
 * @param statistic twice the log likelihood ratio against no shift
 */
public record ChangePoint(int index, double before, double after, double statistic) {

  /**
   * Finds the shift.
   *
   * @param values at least two values
   * @param variances variance of each, above 0
   */
  public static ChangePoint find(double[] values, double[] variances) {
    if (values.length < 2 || values.length != variances.length) {
      throw new IllegalArgumentException(
          "%d values and %d variances; give at least two of each"
              .formatted(values.length, variances.length));
    }
    double weight = 0;
    double sum = 0;
    for (int i = 0; i < values.length; i++) {
      weight += 1 / variances[i];
      sum += values[i] / variances[i];
    }
    double weightBefore = 0;
    double sumBefore = 0;
    ChangePoint best = new ChangePoint(0, sum / weight, sum / weight, 0);
    for (int i = 1; i < values.length; i++) {
      weightBefore += 1 / variances[i - 1];
      sumBefore += values[i - 1] / variances[i - 1];
      double weightAfter = weight - weightBefore;
      double before = sumBefore / weightBefore;
      double after = (sum - sumBefore) / weightAfter;
      double statistic = (after - before) * (after - before) * weightBefore * weightAfter / weight;
      if (statistic > best.statistic) {
        best = new ChangePoint(i, before, after, statistic);
      }
    }
    return best;
  }
}
