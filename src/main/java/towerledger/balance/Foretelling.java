package towerledger.balance;

import java.util.List;

/**
 * Weighs a story by how well it foretold what a period measured: the samples, the makeup meter, the
 * bleed meter. Each is compared in logs and moves the story's calibration.
 */
final class Foretelling {

  /** How far a fault may stray from half of its effect where it begins or ends. */
  private static final double AT_TURN = 0.32;

  /** How far the water that a drain takes may stray from what is assumed. */
  private static final double REFILL_LOOSE = 0.3;

  /** How far the water of a fault may stray from one period to the next, as a part of it. */
  private static final double FAULT_LOOSE = 0.1;

  private final List<Response> responses;
  private final double volumeL;
  private final double floorPerDayL;
  private final double meterAccuracy;
  private final double bleedAccuracy;
  private final double[] slope = new double[4];

  /**
   * @param responses what each signature would show, the sound one first
   * @param volumeL water of the loop, L
   * @param floorPerDayL daily volume below which percentages lose their meaning
   * @param meterAccuracy one standard deviation of the makeup meter, as a fraction
   * @param bleedAccuracy the same of the bleed meter
   */
  Foretelling(
      List<Response> responses,
      double volumeL,
      double floorPerDayL,
      double meterAccuracy,
      double bleedAccuracy) {
    this.responses = responses;
    this.volumeL = volumeL;
    this.floorPerDayL = floorPerDayL;
    this.meterAccuracy = meterAccuracy;
    this.bleedAccuracy = bleedAccuracy;
  }

  /**
   * One meter's water as a story has it.
   *
   * @param measuredL what the meter counted, L
   * @param deviationL one standard deviation of its reading, L
   * @param soundL what a sound system that lives so would have shown at a load multiplier of one, L
   * @param effectL what the fault adds over a whole period, L
   * @param fixedL what of the sound system's water a clock bleeds, whatever the load, L
   * @param livedL one standard deviation of what the way it lives by adds, L
   * @param slopeL change with the log of the basin's habit, L
   * @param perBaseL change with the base load, L
   * @param floorL volume below which percentages lose their meaning, L
   * @param bleeds whether it is the bleed, which follows the concentration otherwise than the
   *     makeup
   */
  private record Flow(
      double measuredL,
      double deviationL,
      double soundL,
      double effectL,
      double fixedL,
      double livedL,
      double slopeL,
      double perBaseL,
      double floorL,
      boolean bleeds) {}

  /**
   * How far a meter is believed.
   *
   * @param loose part of the effect by which a fault of one size may stray
   * @param levelPart part of the loop's water by which the level may differ between readings
   * @param ownVariance variance of the meter itself, of logs
   * @param blunderOdds how often a reading is a blunder
   * @param blunderVariance variance that a blunder adds, of logs
   */
  private record Trust(
      double loose,
      double levelPart,
      double ownVariance,
      double blunderOdds,
      double blunderVariance) {}

  /** How far the samples of a period lie from what a story foretells, ln; NaN without any. */
  double sampleGap(Hypothesis h, int p, Period period) {
    Response response = responses.get(h.responseIn(p));
    return period.hasSamples()
        ? period.sampleLog() - h.habit() * response.held[p] - response.sampleLog[p]
        : Double.NaN;
  }

  /** Makeup of a period over what a story foretells, L; NaN where it is not known. */
  double makeupGap(Hypothesis h, int p, Period period) {
    Response response = responses.get(h.responseIn(p));
    double byLoad = Math.exp(h.load() + period.loadScatter() * h.scatter()) * response.makeup[p];
    return period.makeupL() - byLoad - h.base() * responses.get(0).base[p];
  }

  /**
   * Weighs a story by all that a period measured.
   *
   * @param strays variance of a sample, ln, for straying from the mean of its period where nobody
   *     holds the concentration
   */
  void weigh(Hypothesis h, int p, Period period, double strays) {
    Response sound = responses.get(0);
    Response response = responses.get(h.responseIn(p));
    Signature signature = response.signature;
    boolean turns = h.turnsIn(p);
    boolean refill = response.refillL > 0;
    double part = refill ? 1 : h.partIn(p);
    double atTurn = refill ? REFILL_LOOSE : AT_TURN;
    Response way = h.way == 0 ? sound : responses.get(h.way);
    double looseWay = way.refillL > 0 ? REFILL_LOOSE : 0;
    double fixed = way.byClock() ? way.bleed[p] : 0;
    double waySlope = way.slope[p] - sound.slope[p];

    if (period.hasSamples()) {
      double change = response.sampleLog[p] - sound.sampleLog[p];
      double log = way.sampleLog[p] + h.partIn(p) * change;
      double loose = (turns ? 0.35 : looseness(response)) * change;
      double lived = looseWay * (way.sampleLog[p] - sound.sampleLog[p]);
      double deviation = period.sampleDeviation();
      double astray = way.byClock() ? 0 : strays / period.sampleBlocks().length;
      double held = Math.min(response.held[p], way.held[p]);
      slopes(0, held, 0, 0);
      h.logWeight +=
          h.calibration.update(
              period.sampleLog() - (h.habit() * held + log),
              slope,
              deviation * deviation + loose * loose + lived * lived + astray + 0.015 * 0.015,
              0.04,
              0.2 * 0.2);
    }
    if (period.hasMakeup()) {
      double told = response.makeup[p] * signature.loadFactor() * signature.makeupFactor();
      double accuracy = 0.4 * meterAccuracy;
      weigh(
          h,
          period,
          part,
          new Flow(
              period.makeupL(),
              period.makeupDeviationL(),
              way.makeup[p],
              told - sound.makeup[p],
              fixed,
              looseWay * (way.makeup[p] - sound.makeup[p]),
              (response.slope[p] + waySlope) * signature.makeupFactor(),
              sound.base[p] * (turns ? 1 : signature.makeupFactor() * signature.standing()),
              floorPerDayL * period.days(),
              false),
          new Trust(
              turns ? atTurn : looseness(response), 0.02, accuracy * accuracy, 0.04, 0.15 * 0.15));
    }
    if (period.hasBleed()) {
      double told = response.bleed[p] * signature.loadFactor() * signature.bleedFactor();
      weigh(
          h,
          period,
          part,
          new Flow(
              period.bleedL(),
              period.bleedDeviationL(),
              way.bleed[p],
              told - sound.bleed[p],
              fixed,
              looseWay * (way.bleed[p] - sound.bleed[p]),
              response.slope[p] + waySlope,
              sound.baseBleed[p] * (turns ? 1 : signature.bleedFactor() * signature.standing()),
              0.3 * floorPerDayL * period.days(),
              true),
          new Trust(
              turns ? 0.35 : 0.15,
              0.03,
              bleedAccuracy * bleedAccuracy + 0.05 * 0.05,
              0.05,
              0.4 * 0.4));
    }
  }

  private void weigh(Hypothesis h, Period period, double part, Flow flow, Trust trust) {
    double mixed = flow.soundL() + part * flow.effectL();
    double led = mixed - flow.fixedL();
    double elasticity = led > 0 && flow.fixedL() == 0 ? flow.slopeL() / led : 0;
    double kept = h.kept();
    // A clock that bleeds more keeps the basin thinner: its habit is that of the bleed.
    double fixed = flow.fixedL() / kept;
    double byHabit =
        flow.bleeds() ? Cycles.bleedAt(elasticity, kept) : Cycles.makeupAt(elasticity, kept);
    double habitSlope =
        flow.bleeds()
            ? Cycles.bleedSlopeAt(elasticity, kept)
            : Cycles.makeupSlopeAt(elasticity, kept);
    double drawn =
        Math.max(0, led) * Math.exp(h.load() + period.loadScatter() * h.scatter()) * byHabit;
    double shown = Math.max(0, drawn + fixed + h.base() * flow.perBaseL()) + flow.floorL();
    double measured = flow.measuredL() + flow.floorL();
    double residual = Math.log(measured / shown);
    double between = between(measured, shown, residual);
    double loose = trust.loose() * flow.effectL() / (mixed + flow.floorL()) * shown / between;
    double level = trust.levelPart() * volumeL / between;
    double lived = flow.livedL() / between;
    double read = flow.deviationL() / between;
    double derivative = drawn / shown;
    double noise = derivative * period.loadNoise();
    slopes(
        derivative,
        derivative * habitSlope - fixed / shown,
        derivative * period.loadScatter(),
        flow.perBaseL() / between);
    h.logWeight +=
        h.calibration.update(
            residual,
            slope,
            noise * noise
                + loose * loose
                + level * level
                + read * read
                + lived * lived
                + trust.ownVariance(),
            trust.blunderOdds(),
            trust.blunderVariance());
  }

  /**
   * Logarithmic mean of what was measured and what was foretold: litres over it are as far apart in
   * logs as in litres. Over the foretold alone a few litres would pass for any surplus of a tower
   * that hardly runs.
   */
  private static double between(double measured, double shown, double log) {
    return Math.abs(log) < 1e-4 ? shown : (measured - shown) / log;
  }

  private void slopes(double load, double habit, double scatter, double base) {
    slope[Calibration.LOAD] = load;
    slope[Calibration.HABIT] = habit;
    slope[Calibration.SCATTER] = scatter;
    slope[Calibration.BASE] = base;
  }

  /**
   * How far a fault of one size may stray from it from one period to the next. The same for all: a
   * cause that was allowed more would lose to the others whenever it foretold as well as they.
   */
  private static double looseness(Response response) {
    return response.refillL > 0 ? REFILL_LOOSE : FAULT_LOOSE;
  }
}
