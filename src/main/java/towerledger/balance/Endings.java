package towerledger.balance;

import java.util.List;

/**
 * Odds that a fault ends within a period, by work done in it or by itself, by number of its
 * response; 0 for the sound one.
 *
 * @param ends log of the odds that it ends
 * @param goesOn log of the odds that it goes on
 */
record Endings(double[] ends, double[] goesOn) {

  private static final double MOST = 0.95;

  /**
   * The odds of one period.
   *
   * @param count number of responses to tell of, from the first on
   */
  static Endings within(Period period, List<Response> responses, int count) {
    double years = period.days() / 365.25;
    double[] ends = new double[count];
    double[] goesOn = new double[count];
    double rateBefore = Double.NaN;
    double curedBefore = Double.NaN;
    for (int r = 1; r < count; r++) {
      Signature signature = responses.get(r).signature;
      double rate = StoryRates.endsPerYear(signature);
      double cured = period.cured()[signature.cause().ordinal()];
      if (rate == rateBefore && cured == curedBefore) {
        // Neighbours mostly have their cause in common.
        ends[r] = ends[r - 1];
        goesOn[r] = goesOn[r - 1];
      } else {
        double odds = Math.min(MOST, 1 - Math.exp(-rate * years) + cured);
        ends[r] = Math.log(odds);
        goesOn[r] = Math.log(1 - odds);
        rateBefore = rate;
        curedBefore = cured;
      }
    }
    return new Endings(ends, goesOn);
  }
}
