package towerledger.balance;

import java.util.List;

/**
 * Weighs stories by how well they foretold what one period measured: the samples, the makeup meter,
 * the bleed meter. Each is compared in logs and moves the story's calibration.
 */
final class PeriodWeighing {

  /** Part of its effect by which the samples, or the bleed, of a fault may stray at its turn. */
  private static final double LOOSE_AT_TURN = 0.35;

  /** The same of the bleed in the midst of a fault. */
  private static final double BLEED_LOOSE = 0.15;

  private static final double SAMPLE_BLUNDER_ODDS = 0.04;
  private static final double SAMPLE_BLUNDER_VARIANCE = 0.2 * 0.2;

  /** Variance of a sample that the model itself misses, ln. */
  private static final double SAMPLE_MODEL_VARIANCE = 0.015 * 0.015;

  private final int p;
  private final Showing[] showings;
  private final Showing sound;
  private final MeterWord makeup;
  private final MeterWord bleed;
  private final boolean hasSamples;
  private final boolean hasMakeup;
  private final boolean hasBleed;
  private final double sampleLog;
  private final double readVariance;
  private final double astray;

  /**
   * The weighing of one period.
   *
   * @param showings by number of the response, what it shows in the period
   * @param strays variance of a sample, ln, for straying from the mean of its period where nobody
   *     holds the concentration
   */
  PeriodWeighing(
      int p,
      Period period,
      List<Showing> showings,
      MeterWord makeup,
      MeterWord bleed,
      double strays) {
    this.p = p;
    this.showings = showings.toArray(new Showing[0]);
    this.makeup = makeup;
    this.bleed = bleed;
    sound = this.showings[0];
    hasSamples = period.hasSamples();
    hasMakeup = period.hasMakeup();
    hasBleed = period.hasBleed();
    sampleLog = period.sampleLog();
    readVariance = period.sampleDeviation() * period.sampleDeviation();
    astray = hasSamples ? strays / period.sampleBlocks().length : 0;
  }

  /** Weighs a story by all that the period measured. */
  void weigh(Hypothesis h) {
    Showing shows = showings[h.responseIn(p)];
    Showing way = showings[h.way];
    boolean turns = h.turnsIn(p);
    double halved = turns ? 0.5 : 1;
    double part = shows.refill ? 1 : halved;
    double slopeL = shows.slopeL + (way.slopeL - sound.slopeL);
    if (hasSamples) {
      double change = shows.sampleChange;
      double loose = (turns ? LOOSE_AT_TURN : shows.loose) * change;
      double lived = way.looseAsWay * way.sampleChange;
      double held = Math.min(shows.held, way.held);
      double bySize = halved * shows.sampleBySize;
      double foretold = h.habit() * held + (way.sampleLog + halved * change) + h.size() * bySize;
      h.logWeight +=
          h.calibration.update(
              sampleLog - foretold,
              0,
              held,
              0,
              0,
              0,
              bySize,
              readVariance
                  + loose * loose
                  + lived * lived
                  + (way.byClock ? 0 : astray)
                  + SAMPLE_MODEL_VARIANCE,
              SAMPLE_BLUNDER_ODDS,
              SAMPLE_BLUNDER_VARIANCE);
    }
    if (hasMakeup) {
      makeup.weigh(
          h,
          way.makeupL,
          part * shows.makeupEffectL(h.size()),
          shows.makeupEffectL,
          part * shows.makeupBySizeL,
          turns ? shows.looseAtTurn : shows.loose,
          way.clockedL,
          way.looseAsWay * way.addedMakeupL,
          slopeL * shows.makeupFactor,
          turns ? sound.makeupPerBaseL : shows.makeupPerBaseL,
          turns ? sound.makeupPerEvenL : shows.makeupPerEvenL);
    }
    if (hasBleed) {
      bleed.weigh(
          h,
          way.bleedL,
          part * (shows.bleedEffectL + h.size() * shows.bleedBySizeL),
          shows.bleedEffectL,
          part * shows.bleedBySizeL,
          turns ? LOOSE_AT_TURN : BLEED_LOOSE,
          way.clockedL,
          way.looseAsWay * way.addedBleedL,
          slopeL,
          turns ? sound.bleedPerBaseL : shows.bleedPerBaseL,
          turns ? sound.bleedPerEvenL : shows.bleedPerEvenL);
    }
  }

  /** Leans a story whose fault acts by what people saw in the period. */
  void lean(Hypothesis h) {
    if (!(h.over() && h.end < p)) {
      h.logWeight += showings[h.was].leaning;
    }
  }
}
