package towerledger.balance;

/**
 * What one meter says of a period, and how far it is believed: each story is weighed by how well it
 * foretold it, in logs.
 *
 * @param measuredL what the meter counted, L
 * @param deviationL one standard deviation of its reading, L
 * @param floorL volume below which percentages lose their meaning, L
 * @param levelL water by which the level may differ between readings, L
 * @param ownVariance variance of the meter itself, of logs
 * @param blunderOdds how often a reading is a blunder
 * @param blunderVariance variance that a blunder adds, of logs
 * @param loadScatter deviation of model and heat evidence at this time of the year, ln
 * @param loadNoise deviation of the load within this period alone, ln
 * @param bleeds whether it is the bleed, which follows the concentration otherwise than the makeup
 */
record MeterWord(
    double measuredL,
    double deviationL,
    double floorL,
    double levelL,
    double ownVariance,
    double blunderOdds,
    double blunderVariance,
    double loadScatter,
    double loadNoise,
    boolean bleeds) {

  /**
   * Weighs a story by its water at this meter and lets it learn.
   *
   * @param soundL what a sound system that lives so would have shown at a load multiplier of one, L
   * @param effectL what the fault adds, L
   * @param wholeEffectL what it adds over a whole period, L
   * @param bySizeL change with a step of the size of the fault, L
   * @param loose part of the effect by which a fault of one size may stray
   * @param fixedL what of the sound system's water a clock bleeds, whatever the load, L
   * @param livedL one standard deviation of what the way it lives by adds, L
   * @param slopeL change with the log of the basin's habit, L
   * @param perBaseL change with the base load, L
   * @param perEvenL change where the load is even, L
   */
  void weigh(
      Hypothesis h,
      double soundL,
      double effectL,
      double wholeEffectL,
      double bySizeL,
      double loose,
      double fixedL,
      double livedL,
      double slopeL,
      double perBaseL,
      double perEvenL) {
    Calibration c = h.calibration;
    double mixed = soundL + effectL;
    double led = mixed - fixedL;
    double elasticity = led > 0 && fixedL == 0 ? slopeL / led : 0;
    double kept = h.kept();
    // A clock that bleeds more keeps the basin thinner: its habit is that of the bleed.
    double fixed = fixedL / kept;
    double byHabit = bleeds ? Cycles.bleedAt(elasticity, kept) : Cycles.makeupAt(elasticity, kept);
    double habitSlope =
        bleeds ? Cycles.bleedSlopeAt(elasticity, kept) : Cycles.makeupSlopeAt(elasticity, kept);
    double drawn = Math.max(0, led) * Math.exp(c.load() + loadScatter * c.scatter()) * byHabit;
    double lacks = c.base() * perBaseL + c.even() * perEvenL;
    double byShape = led > 0 ? drawn * Math.max(0, soundL - fixedL) / led : 0;
    double lacked = LackedWater.bounded(lacks, byShape);
    boolean free = lacked == lacks;
    double shown = Math.max(0, drawn + fixed + lacked) + floorL;
    double measured = measuredL + floorL;
    double residual = Math.log(measured / shown);
    double between = between(measured, shown, residual);
    double strays = loose * wholeEffectL / (mixed + floorL) * shown / between;
    double level = levelL / between;
    double lived = livedL / between;
    double read = deviationL / between;
    double derivative = drawn / shown;
    double noise = derivative * loadNoise;
    h.logWeight +=
        c.update(
            residual,
            derivative,
            derivative * habitSlope - fixed / shown,
            derivative * loadScatter,
            free ? perBaseL / between : 0,
            free ? perEvenL / between : 0,
            led > 0 ? bySizeL / led * drawn / between : 0,
            noise * noise
                + strays * strays
                + level * level
                + read * read
                + lived * lived
                + ownVariance,
            blunderOdds,
            blunderVariance);
  }

  /**
   * Logarithmic mean of what was measured and what was foretold: litres over it are as far apart in
   * logs as in litres. Over the foretold alone a few litres would pass for any surplus of a tower
   * that hardly runs.
   */
  private static double between(double measured, double shown, double log) {
    return Math.abs(log) < 1e-4 ? shown : (measured - shown) / log;
  }
}
