package towerledger.balance;

import towerledger.balance.facts.OperatingSettings.BlowdownControl;

/**
 * How the basin is held, block by block, as far as is known at the time of each block.
 *
 * @param freshUsCm conductivity of the makeup, or 1 where only ratios are known
 * @param aimUsCm basin conductivity aimed at in sound state, same unit
 * @param targetCycles cycles that the settings ask for; NaN where none are set
 * @param control how the bleed is controlled
 * @param driftPerLoadHourL drift per hour at full load, L
 * @param drainedL basin water drained by intention, L
 * @param startsUp whether the system starts after its idle months in the block, its basin perhaps
 *     filled anew
 * @param idle whether the block lies in the idle months
 * @param aimMoved whether somebody is known to have moved the bleed's aim in the block
 * @param volumeL water in the loop, L
 */
record ControlPlan(
    double[] freshUsCm,
    double[] aimUsCm,
    double[] targetCycles,
    BlowdownControl[] control,
    double driftPerLoadHourL,
    double[] drainedL,
    boolean[] startsUp,
    boolean[] idle,
    boolean[] aimMoved,
    double volumeL) {

  /** An aim lies at least so far above the makeup: a bleed that thins nothing never ends. */
  private static final double LEAST_CYCLES = 1.05;

  /** Basin conductivity aimed at in a block at a multiple of the sound aim, µS/cm. */
  double aimUsCm(int block, double factor) {
    return Math.max(aimUsCm[block] * factor, freshUsCm[block] * LEAST_CYCLES);
  }

  /** One over the lift of such an aim above the makeup, cm/µS: what a bleed is told by. */
  double perLift(int block, double factor) {
    return 1 / (aimUsCm(block, factor) - freshUsCm[block]);
  }

  /**
   * Whether the bleed follows the concentration or the makeup, by a set-point that may be moved; a
   * clock and a hand bleed whatever the water holds.
   */
  boolean held(int block) {
    return control[block] == BlowdownControl.CONDUCTIVITY
        || control[block] == BlowdownControl.MAKEUP_PROPORTIONAL;
  }

  /** Whether a clock bleeds at any time. */
  boolean bleedsByTimer() {
    return bleeds(BlowdownControl.TIMER);
  }

  /** Whether the bleed follows the makeup meter at any time. */
  boolean bleedsByMakeup() {
    return bleeds(BlowdownControl.MAKEUP_PROPORTIONAL);
  }

  private boolean bleeds(BlowdownControl by) {
    for (BlowdownControl each : control) {
      if (each == by) {
        return true;
      }
    }
    return false;
  }
}
