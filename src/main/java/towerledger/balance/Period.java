package towerledger.balance;

import java.time.Instant;

/**
 * One step of the sequential estimate: the stretch between two readings, at least most of a week,
 * with what was measured in it.
 *
 * @param from begin, in blocks of the grid
 * @param to end, in blocks
 * @param makeupL metered makeup less metered other use, L; NaN where not covered
 * @param makeupDeviationL standard deviation of it from readings and allocation, L
 * @param sampleBlocks block of each usable sample
 * @param sampleLog mean log of basin concentration over the sound aim; NaN without samples
 * @param sampleDeviation standard deviation of that mean
 * @param bleedL metered bleed; NaN without
 * @param bleedDeviationL standard deviation of it, L
 * @param loadScatter deviation of model and heat evidence at this time of the year, ln
 * @param loadNoise deviation of the load within this period alone, ln
 * @param grade ordinal of the evidence grade
 * @param aimMoved whether somebody is known to have moved the bleed's aim
 * @param fillPressure factor on how often a fill valve leaks by, from the pressure at it
 * @param leanings log of how much likelier each cause became by what was seen, by ordinal
 * @param cured for each cause, how likely work done at the end of the period cured it
 * @param lastFact instant of the last fact used
 */
record Period(
    double from,
    double to,
    double makeupL,
    double makeupDeviationL,
    int[] sampleBlocks,
    double sampleLog,
    double sampleDeviation,
    double bleedL,
    double bleedDeviationL,
    double loadScatter,
    double loadNoise,
    int grade,
    boolean aimMoved,
    double fillPressure,
    double[] leanings,
    double[] cured,
    Instant lastFact) {

  boolean hasMakeup() {
    return !Double.isNaN(makeupL);
  }

  boolean hasSamples() {
    return sampleBlocks.length > 0;
  }

  boolean hasBleed() {
    return !Double.isNaN(bleedL);
  }

  /** Whether the load is a guess from nameplate or running hours. */
  boolean guessed() {
    return grade >= EvidenceGrade.C.ordinal();
  }

  double days() {
    return (to - from) / 4;
  }
}
