package towerledger.balance;

import java.util.List;

/**
 * What a sound system draws for a load that the guessed shape lacks: a base at all hours that run,
 * and what an even load takes more. Told for one unit of either; how much of them a system has is
 * learned along each story.
 *
 * @param baseMakeup by period: makeup of the reference load at all hours that run, L
 * @param baseBleed by period: bleed that it needs, L
 * @param evenMakeup by period: makeup that an even load draws more, L
 * @param evenBleed by period: bleed that it needs more, L
 * @param monthBase by month: makeup of the reference load at all hours that run, L
 * @param monthEven by month: makeup that an even load draws more, L
 */
record LackedWater(
    double[] baseMakeup,
    double[] baseBleed,
    double[] evenMakeup,
    double[] evenBleed,
    double[] monthBase,
    double[] monthEven) {

  /**
   * Largest part of the water by shape that a story may take away again as overdone: heat that was
   * told was shed by and large, or a steady loss would explain any tower that hardly runs. Set on
   * fleets whose truth is known (decision 0236).
   */
  private static final double MOST_OVERDONE = 0.4;

  /**
   * Works it out once for a system.
   *
   * @param referencePerHourL evaporation of the reference load, L/h
   */
  static LackedWater of(
      QuarterDays blocks,
      ControlPlan plan,
      double referencePerHourL,
      List<Period> periods,
      MonthFrame frame) {
    int n = blocks.count;
    double[] base = new double[n + 1];
    double[] baseBled = new double[n + 1];
    double[] even = new double[n + 1];
    double[] evenBled = new double[n + 1];
    for (int b = 0; b < n; b++) {
      double fresh = plan.freshUsCm()[b];
      double aim = plan.aimUsCm(b, 1);
      double perLift = plan.perLift(b, 1);
      double reference = referencePerHourL * blocks.runHours[b];
      double evened = blocks.evenedL[b];
      base[b + 1] = base[b] + reference * aim * perLift;
      baseBled[b + 1] = baseBled[b] + reference * fresh * perLift;
      even[b + 1] = even[b] + evened * aim * perLift;
      evenBled[b + 1] = evenBled[b] + evened * fresh * perLift;
    }
    return new LackedWater(
        RunningTotals.byPeriod(base, periods),
        RunningTotals.byPeriod(baseBled, periods),
        RunningTotals.byPeriod(even, periods),
        RunningTotals.byPeriod(evenBled, periods),
        RunningTotals.byMonth(base, frame),
        RunningTotals.byMonth(even, frame));
  }

  /**
   * Makeup of a period that a story lays to what the shape lacks, below 0 to what it overdoes, L.
   *
   * @param byShapeL makeup by the shape alone, L
   */
  double makeup(Hypothesis h, int p, double byShapeL) {
    return bounded(h.lacked(baseMakeup[p], evenMakeup[p]), byShapeL);
  }

  /** The same of a month, L. */
  double monthMakeup(Hypothesis h, int month, double byShapeL) {
    return bounded(h.lacked(monthBase[month], monthEven[month]), byShapeL);
  }

  /**
   * What the shape lacks, kept to what it may overdo, L.
   *
   * @param lackedL water that it lacks by a story, below 0 what it overdoes, L
   * @param byShapeL water by the shape alone, 0 or more, L
   */
  static double bounded(double lackedL, double byShapeL) {
    return Math.max(-MOST_OVERDONE * byShapeL, lackedL);
  }
}
