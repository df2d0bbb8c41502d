package towerledger.balance;

import towerledger.balance.facts.WaterSample;

/**
 * What a month's samples and set-points say of the basin.
 *
 * @param cycles geometric mean of basin over makeup; NaN without a sample that tells it
 * @param targetCycles harmonic mean over the month of the cycles set; NaN where none are
 * @param samples how many told cycles
 * @param weakSamples how many were weaker than the makeup and told nothing
 */
record MonthChemistry(double cycles, double targetCycles, int samples, int weakSamples) {

  /** Reads the month from block {@code from} to block {@code to}. */
  static MonthChemistry of(SystemPass pass, double from, double to) {
    double sum = 0;
    int samples = 0;
    int weak = 0;
    for (WaterSample sample : pass.facts.samples()) {
      double at = pass.blocks.position(sample.takenAt());
      if (at < from || at >= to) {
        continue;
      }
      if (sample.weakerThanMakeup()) {
        weak++;
        continue;
      }
      double ratio = ratio(sample, pass, Math.min(pass.blocks.count - 1, (int) at));
      if (ratio > 0) {
        sum += Math.log(ratio);
        samples++;
      }
    }
    double cycles = samples > 0 ? Math.exp(sum / samples) : Double.NaN;
    return new MonthChemistry(cycles, targetCycles(pass, from, to), samples, weak);
  }

  /** By conductivity, else by chloride. */
  private static double ratio(WaterSample sample, SystemPass pass, int block) {
    double fresh = sample.makeupConductivityUsCm().orElse(Double.NaN);
    if (Double.isNaN(fresh) && pass.plan.freshUsCm()[block] != 1) {
      fresh = pass.plan.freshUsCm()[block];
    }
    double ratio = sample.basinConductivityUsCm().orElse(Double.NaN) / fresh;
    if (Double.isNaN(ratio) && sample.makeupChlorideMgL().orElse(0) > 0) {
      return sample.basinChlorideMgL().orElse(Double.NaN)
          / sample.makeupChlorideMgL().getAsDouble();
    }
    return ratio;
  }

  private static double targetCycles(SystemPass pass, double from, double to) {
    double inverse = 0;
    int count = 0;
    for (int b = (int) Math.round(from); b < Math.min(Math.round(to), pass.blocks.count); b++) {
      if (!Double.isNaN(pass.plan.targetCycles()[b])) {
        inverse += 1 / pass.plan.targetCycles()[b];
        count++;
      }
    }
    return count > 0 ? count / inverse : Double.NaN;
  }

  /** Bleed that holds the cycles set, or those found where none are; NaN where not known. */
  double neededBleed(double evaporation, double drift) {
    return bleed(Double.isNaN(targetCycles) ? cycles : targetCycles, evaporation, drift);
  }

  /** Bleed that the cycles found tell of; NaN where not known. */
  double impliedBleed(double evaporation, double drift) {
    return bleed(cycles, evaporation, drift);
  }

  private static double bleed(double cycles, double evaporation, double drift) {
    return Double.isNaN(cycles) || cycles <= 1 || Double.isNaN(evaporation)
        ? Double.NaN
        : Math.max(0, evaporation / (cycles - 1) - drift);
  }
}
