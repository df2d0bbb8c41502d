package towerledger.balance;

/**
 * How far a bleed strays from what the samples make of it, as one standard deviation of the log: a
 * sample stands for its instant. More than one period shows, as the next ones stray to the same
 * side.
 */
final class BleedStray {

  private static final double HELD = 0.095;

  /** The same where nobody holds the concentration. */
  private static final double LOOSE = 0.185;

  /**
   * Part of that stray which the basin's habit does not take up: it moves the makeup too, by the
   * share of it that is bled. A clock bleeds on for weeks before the basin shows it. Set on fleets
   * whose truth is known (decision 0237).
   */
  private static final double NOT_OF_HABIT = 2.0 / 3;

  private BleedStray() {}

  /**
   * Deviation of the bleed itself, ln.
   *
   * @param held whether the bleed follows the concentration or the makeup, not a clock or a hand
   */
  static double ofBleed(boolean held) {
    return held ? HELD : LOOSE;
  }

  /**
   * What it does to the makeup, ln.
   *
   * @param held as {@link #ofBleed}
   * @param bleedL bleed of a sound system, L
   * @param makeupL its makeup, L; 0 where nothing is drawn
   */
  static double ofMakeup(boolean held, double bleedL, double makeupL) {
    double share = makeupL > 0 ? Math.min(1, bleedL / makeupL) : 0;
    return NOT_OF_HABIT * ofBleed(held) * share;
  }

  /** The same of each month. */
  static double[] byMonth(Response sound, ControlPlan plan, MonthFrame frame) {
    double[] strays = new double[frame.months().size()];
    for (int m = 0; m < strays.length; m++) {
      boolean held = plan.held(frame.firstBlock(m, plan.control().length));
      strays[m] = ofMakeup(held, sound.monthBleed[m], sound.monthMakeup[m]);
    }
    return strays;
  }
}
