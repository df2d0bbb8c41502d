package towerledger.balance;

import towerledger.balance.facts.OperatingSettings.BlowdownControl;

/** Makeup of a sound system by the hour: what evaporates, and the bleed that goes with it. */
final class SoundFlow {

  private static final double USUAL_BLEED = 1 / (ControlPlanner.ASSUMED_CYCLES - 1);

  /** Memory of a bleed that is set by hand or clock, h. */
  private static final double MEMORY_HOURS = 720;

  private SoundFlow() {}

  static double[] of(SystemHours hours, ControlPlan plan) {
    double[] evaporation = hours.evaporationL();
    double[] load = hours.load();
    double[] sound = new double[evaporation.length];
    double mean = 0;
    double run = 0.5;
    for (int h = 0; h < sound.length; h++) {
      double here = Double.isNaN(evaporation[h]) ? 0 : evaporation[h];
      int block = Math.min(plan.control().length - 1, h / QuarterDays.HOURS);
      double target = plan.targetCycles()[block];
      double bleed = target > 1.05 ? 1 / (target - 1) : USUAL_BLEED;
      BlowdownControl control = plan.control()[block];
      boolean follows =
          control == BlowdownControl.CONDUCTIVITY || control == BlowdownControl.MAKEUP_PROPORTIONAL;
      mean += (here - mean) / MEMORY_HOURS;
      run += ((load[h] > 0 ? 1 : 0) - run) / MEMORY_HOURS;
      double bled = follows ? here : load[h] > 0 ? mean / Math.max(0.05, run) : 0;
      sound[h] = here + bleed * bled;
    }
    return sound;
  }
}
