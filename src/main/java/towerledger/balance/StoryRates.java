package towerledger.balance;

/** How often stories begin and end at a plant before anything is measured: rates a year. */
final class StoryRates {

  /** Part of the systems that carry a fault on the first day: so many years of its rate. */
  private static final double YEARS_BEFORE = 0.6;

  /** How often a fault ends without anybody noting why, per year. */
  private static final double SPONTANEOUS_END = 0.8;

  /** The same for what nobody can overlook for long: a valve wide open, a basin that runs dry. */
  private static final double GLARING_END = 15;

  /** How soon a system that stands is started again, per year. */
  private static final double STOP_END = 20;

  /** How much oftener loads change where they are guessed: use changes, and nobody tells. */
  private static final double LOADS_CHANGE = 5;

  /** How often systems stand for days that are modelled to run, by grade, per year. */
  private static final double[] STOPS = {0.01, 0.1, 0.3, 0.6};

  /** The same around the idle season, which follows the weather and not the calendar. */
  private static final double[] STOPS_AT_THE_EDGE = {0.05, 1, 2, 3};

  private static final int EDGE_BLOCKS = 30 * 4;

  private final ControlPlan plan;
  private final double[] plantFactor;

  /**
   * Rates of one plant.
   *
   * @param plantFactor factor on how often each cause begins at this plant, by ordinal
   */
  StoryRates(ControlPlan plan, double[] plantFactor) {
    this.plan = plan;
    this.plantFactor = plantFactor;
  }

  /** How often a story ends by itself, per year. */
  static double endsPerYear(Signature signature) {
    Cause cause = signature.cause();
    boolean glaring = cause == Cause.FILL_VALVE_STUCK_OPEN || cause == Cause.FILL_VALVE_SHUT;
    boolean stands = signature.sane() && signature.standing() < 1;
    return glaring ? GLARING_END : stands ? STOP_END : SPONTANEOUS_END;
  }

  /** Odds that a system carries a fault on the first day. */
  double onTheFirstDay(Signature signature, double fillPressure) {
    double years = Math.min(YEARS_BEFORE, 1 / endsPerYear(signature));
    double odds = signature.prior() * factor(signature) * years;
    return signature.cause() == Cause.FILL_VALVE_LEAKING_BY ? odds * fillPressure : odds;
  }

  /** Odds that a story begins within a period. */
  double within(Period period, Signature signature) {
    double years = period.days() / 365.25;
    double odds = signature.prior() * factor(signature) * years;
    if (signature.sane()) {
      odds *= signature.standing() < 1 ? stops(period) : moves(period);
    } else if (signature.loadFactor() != 1 && period.guessed()) {
      odds *= LOADS_CHANGE;
    }
    return signature.cause() == Cause.FILL_VALVE_LEAKING_BY ? odds * period.fillPressure() : odds;
  }

  private double factor(Signature signature) {
    return plantFactor[signature.cause().ordinal()];
  }

  /** How much oftener a system stands that is modelled to run. */
  private double stops(Period period) {
    int from = Math.max(0, (int) period.from() - EDGE_BLOCKS);
    int to = Math.min(plan.idle().length, (int) period.to() + EDGE_BLOCKS);
    boolean some = false;
    boolean all = true;
    for (int b = from; b < to; b++) {
      some |= plan.idle()[b];
      all &= plan.idle()[b];
    }
    return STOPS[period.grade()] + (some && !all ? STOPS_AT_THE_EDGE[period.grade()] : 0);
  }

  /** Whether somebody steers the bleed by a set-point that may be moved. */
  private double moves(Period period) {
    return plan.held(Math.max(0, (int) period.from())) ? 1 : 0;
  }
}
