package towerledger.balance;

import java.util.ArrayList;
import java.util.List;
import towerledger.balance.facts.OperatingSettings.BlowdownControl;

/**
 * Sequential Bayesian estimate over hypotheses: at every period each may go on, begin or be cured,
 * and is weighed by how well it foretold what was measured. Looks only back.
 */
final class FaultFilter {

  /**
   * Prior deviation of the log load multiplier by grade (MODEL expectations before calibration).
   */
  private static final double[] LOAD_PRIOR = {0.045, 0.085, 0.15, 0.22};

  /** Wander of the log load multiplier in a month, by grade. */
  private static final double[] LOAD_WANDER = {0.006, 0.008, 0.012, 0.016};

  /** Part of the systems that carry a fault on the first day: so many years of its rate. */
  private static final double YEARS_BEFORE = 0.6;

  /** How often a fault ends without anybody noting why, per year. */
  private static final double SPONTANEOUS_END = 0.25;

  private static final double FORGET = 1e-6;

  /** Periods after which onsets of one signature are no longer told apart. */
  private static final int OLD = 16;

  private final List<Period> periods;
  private final List<Response> responses;
  private final ControlPlan plan;
  private final double floorL;
  private final double meterAccuracy;
  private final double bleedAccuracy;
  private final double[] plantFactor;
  private List<Hypothesis> alive = new ArrayList<>();
  private int lastGrade = -1;

  /**
   * A filter at rest.
   *
   * @param floorPerDayL daily volume below which percentages lose their meaning
   * @param plantFactor factor on how often each cause begins at this plant, by ordinal
   */
  FaultFilter(
      List<Period> periods,
      List<Response> responses,
      ControlPlan plan,
      double floorPerDayL,
      double meterAccuracy,
      double bleedAccuracy,
      double[] plantFactor) {
    this.periods = periods;
    this.responses = responses;
    this.plan = plan;
    this.floorL = floorPerDayL;
    this.meterAccuracy = meterAccuracy;
    this.bleedAccuracy = bleedAccuracy;
    this.plantFactor = plantFactor;
  }

  List<Hypothesis> alive() {
    return alive;
  }

  /** The hypotheses as they stand before any measurement. */
  void start(int grade) {
    alive = new ArrayList<>();
    double faulty = 0;
    for (int s = 1; s < responses.size(); s++) {
      Signature signature = responses.get(s).signature;
      double weight = signature.prior() * factor(signature) * YEARS_BEFORE;
      faulty += weight;
      alive.add(fresh(s, Math.log(weight), grade));
    }
    alive.add(0, fresh(0, Math.log(Math.max(0.3, 1 - faulty)), grade));
    lastGrade = grade;
  }

  private double factor(Signature signature) {
    return plantFactor[signature.cause().ordinal()];
  }

  private Hypothesis fresh(int signature, double logWeight, int grade) {
    Hypothesis hypothesis = new Hypothesis(signature, Hypothesis.ALWAYS, logWeight);
    hypothesis.pLoad = LOAD_PRIOR[grade] * LOAD_PRIOR[grade];
    double habit = habitPrior(0);
    hypothesis.pHabit = habit * habit;
    return hypothesis;
  }

  private double habitPrior(int block) {
    boolean told = !Double.isNaN(plan.targetCycles()[block]);
    return switch (plan.control()[block]) {
      case CONDUCTIVITY -> told ? 0.05 : 0.3;
      case MAKEUP_PROPORTIONAL -> told ? 0.07 : 0.3;
      case TIMER, MANUAL, NONE -> told ? 0.15 : 0.35;
    };
  }

  private double habitWander(int block) {
    BlowdownControl control = plan.control()[block];
    return control == BlowdownControl.CONDUCTIVITY
        ? 0.010
        : control == BlowdownControl.MAKEUP_PROPORTIONAL ? 0.015 : 0.06;
  }

  /** Takes one period in. */
  void step(int p, int monthOfMiddle) {
    Period period = periods.get(p);
    if (lastGrade != period.grade()) {
      regrade(period.grade());
    }
    spawn(p, period);
    double months = period.days() / 30.4;
    double loadWander = LOAD_WANDER[period.grade()];
    double habitWander = habitWander((int) period.from());
    double moved = period.aimMoved() ? 0.2 * 0.2 : 0;
    for (Hypothesis h : alive) {
      h.predict(
          loadWander * loadWander * months,
          habitWander * habitWander * months + moved,
          period.loadScatter() * period.loadScatter());
      weigh(h, p, period);
      if (h.signature != 0) {
        h.logWeight += period.leanings()[cause(h).ordinal()];
      }
      h.book(monthOfMiddle, period.days());
    }
    cure(p, period);
    prune(p);
  }

  private Cause cause(Hypothesis h) {
    return responses.get(h.signature).signature.cause();
  }

  /** Heat known better or worse than before has a multiplier of its own. */
  private void regrade(int grade) {
    double deviation = LOAD_PRIOR[grade];
    for (Hypothesis h : alive) {
      h.pLoad += deviation * deviation;
    }
    lastGrade = grade;
  }

  private void spawn(int p, Period period) {
    Hypothesis sound = sound();
    double years = period.days() / 365.25;
    int known = alive.size();
    for (int s = 1; s < responses.size(); s++) {
      Signature signature = responses.get(s).signature;
      double rate = signature.prior() * factor(signature) * years;
      if (rate > 0) {
        alive.add(sound.copy(s, p, sound.logWeight + Math.log(rate)));
      }
    }
    if (alive.size() < known) {
      throw new IllegalStateException("hypotheses were lost");
    }
  }

  private Hypothesis sound() {
    return alive.get(0);
  }

  private void weigh(Hypothesis h, int p, Period period) {
    Response sound = responses.get(0);
    Response response = responses.get(h.signature);
    Signature signature = response.signature;
    boolean first = h.onset == p;
    double part = first ? 0.5 : 1;

    if (period.hasSamples()) {
      double log = sound.sampleLog[p] + part * (response.sampleLog[p] - sound.sampleLog[p]);
      double change = response.sampleLog[p] - sound.sampleLog[p];
      double loose = (first ? 0.35 : 0.1) * change;
      double deviation = period.sampleDeviation();
      h.update(
          period.sampleLog() - (h.habit * response.held[p] + log),
          0,
          response.held[p],
          0,
          deviation * deviation + loose * loose + 0.015 * 0.015,
          0.04,
          0.2 * 0.2);
    }
    if (period.hasMakeup()) {
      double floor = floorL * period.days();
      double f = response.makeup[p] * signature.loadFactor();
      double soundMakeup = sound.makeup[p];
      double effect = f * signature.makeupFactor() - soundMakeup;
      double mixed = soundMakeup + part * effect;
      double elasticity = mixed > 0 ? response.slope[p] * signature.makeupFactor() / mixed : 0;
      double drawn = Math.max(0, mixed) * Math.exp(h.load + h.scatter + elasticity * h.habit);
      double shown = drawn + floor;
      double loose = (first ? 0.32 : 0.1) * effect / (mixed + floor);
      double level = 0.02 * plan.volumeL() / shown;
      double read = period.makeupDeviationL() / shown;
      double accuracy = 0.4 * meterAccuracy;
      double derivative = drawn / shown;
      h.update(
          Math.log((period.makeupL() + floor) / shown),
          derivative,
          derivative * elasticity,
          derivative,
          loose * loose + level * level + read * read + accuracy * accuracy + 0.008 * 0.008,
          0.04,
          0.15 * 0.15);
    }
    if (period.hasBleed()) {
      double floor = 0.3 * floorL * period.days();
      double b = response.bleed[p] * signature.loadFactor();
      double effect = b * signature.bleedFactor() - sound.bleed[p];
      double mixed = sound.bleed[p] + part * effect;
      double elasticity = mixed > 0 ? response.slope[p] / mixed : 0;
      double drawn = Math.max(0, mixed) * Math.exp(h.load + h.scatter + elasticity * h.habit);
      double shown = drawn + floor;
      double loose = (first ? 0.35 : 0.15) * effect / (mixed + floor);
      double read = period.bleedDeviationL() / shown;
      double level = 0.03 * plan.volumeL() / shown;
      double derivative = drawn / shown;
      h.update(
          Math.log((period.bleedL() + floor) / shown),
          derivative,
          derivative * elasticity,
          derivative,
          loose * loose + read * read + level * level + bleedAccuracy * bleedAccuracy + 0.05 * 0.05,
          0.05,
          0.4 * 0.4);
    }
  }

  /** Lets faults end: by work done in the period, or by themselves. */
  private void cure(int p, Period period) {
    double spontaneous = SPONTANEOUS_END * period.days() / 365.25;
    Hypothesis sound = sound();
    double top = sound.logWeight;
    for (Hypothesis h : alive) {
      top = Math.max(top, h.logWeight);
    }
    double weight = Math.exp(sound.logWeight - top);
    double[] mean = {weight * sound.load, weight * sound.habit};
    double sum = weight;
    double[] second = {
      weight * (sound.pLoad + sound.load * sound.load),
      weight * (sound.pHabit + sound.habit * sound.habit),
      weight * (sound.pLoadHabit + sound.load * sound.habit)
    };
    for (Hypothesis h : alive) {
      if (h.signature == 0 || h.onset == p) {
        continue;
      }
      double ends = Math.min(0.95, spontaneous + period.cured()[cause(h).ordinal()]);
      double w = Math.exp(h.logWeight - top) * ends;
      if (w > 1e-12) {
        // A changed load goes on being the load once the fault is taken as the new normal.
        double load = h.load;
        mean[0] += w * load;
        mean[1] += w * h.habit;
        second[0] += w * (h.pLoad + load * load);
        second[1] += w * (h.pHabit + h.habit * h.habit);
        second[2] += w * (h.pLoadHabit + load * h.habit);
        sum += w;
      }
      h.logWeight += Math.log1p(-ends);
    }
    sound.logWeight = top + Math.log(sum);
    sound.load = mean[0] / sum;
    sound.habit = mean[1] / sum;
    sound.pLoad = second[0] / sum - sound.load * sound.load;
    sound.pHabit = second[1] / sum - sound.habit * sound.habit;
    sound.pLoadHabit = second[2] / sum - sound.load * sound.habit;
  }

  /** Drops what no longer matters and scales the weights to add up to one. */
  private void prune(int p) {
    Hypothesis[] old = new Hypothesis[responses.size()];
    double top = Double.NEGATIVE_INFINITY;
    for (Hypothesis h : alive) {
      top = Math.max(top, h.logWeight);
    }
    double sum = 0;
    for (Hypothesis h : alive) {
      sum += Math.exp(h.logWeight - top);
    }
    double norm = top + Math.log(sum);
    double least = Math.log(FORGET);
    List<Hypothesis> kept = new ArrayList<>();
    for (Hypothesis h : alive) {
      h.logWeight -= norm;
      if (h.signature == 0) {
        h.logWeight = Math.max(h.logWeight, -60);
        kept.add(h);
      } else if (h.logWeight > least) {
        Hypothesis elder = h.onset <= p - OLD ? old[h.signature] : null;
        if (elder != null) {
          elder.absorb(h);
        } else {
          kept.add(h);
          if (h.onset <= p - OLD) {
            old[h.signature] = h;
          }
        }
      }
    }
    alive = kept;
  }
}
