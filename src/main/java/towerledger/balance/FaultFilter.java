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
   * Prior deviation of the log load multiplier by grade, before calibration: a judgement, which
   * sound plants of two authors' fleets bear out (decision 0233).
   */
  private static final double[] LOAD_PRIOR = {0.06, 0.10, 0.17, 0.25};

  /** The same of the model of coil towers; a judgement without a measured check. */
  private static final double COIL_PRIOR = 0.09;

  /** Wander of the log load multiplier in a month, by grade. */
  private static final double[] LOAD_WANDER = {0.006, 0.008, 0.012, 0.016};

  /** Wander of the base in a month, as a part of its prior deviation. */
  private static final double BASE_WANDER = 0.06;

  /** Wander of a fault's size in a month, in steps. */
  private static final double SIZE_WANDER = 0.06;

  /** Log of the weight below which the end of a fault is not followed as a story of its own. */
  private static final double LEAST_STORY = Math.log(1e-3);

  /** The same below which an unnoted drain is not followed on top of a fault. */
  private static final double LEAST_DRAINED = Math.log(0.01);

  /** Memory of the scatter: what the model misses in one season it misses for weeks. */
  private static final double SCATTER_DAYS = 50;

  /** How far basins without a controller stray from their aim, ln, and for how long. */
  private static final double LOOSE_HABIT = 0.22;

  /** The same where somebody bleeds by hand. */
  private static final double HAND_HABIT = 0.30;

  private static final double LOOSE_HABIT_MONTHS = 2;

  /** The same where somebody bleeds by hand, and looks in oftener than a clock is set. */
  private static final double HAND_HABIT_MONTHS = 1;

  /** How far a clock that bleeds the same whatever the load is moved in a month, ln. */
  private static final double CLOCK_MOVED = 0.1;

  /** How often a basin is drained without a note, per year. */
  private static final double DRAINS_UNNOTED = 0.5;

  /** Odds that a basin is filled anew as the season starts. */
  private static final double FILLED_ANEW = 0.5;

  /** Odds that a clock bleeds the same whatever the load, to one that somebody sets after it. */
  private static final double CLOCK_ODDS = 1;

  /** Log of the weight below which no fault is let begin on top of a way of life. */
  private static final double LEAST_BASE = Math.log(0.02);

  /** Gap of the samples that hints at a drain, ln. */
  private static final double THIN = -0.12;

  /** Makeup too much that hints at a drain, as a part of the loop's water. */
  private static final double BURST = 0.35;

  private final List<Period> periods;
  private final List<Response> responses;
  private final Refills refills;

  /** Number of responses of the catalogue; behind them the clocks, and the refills behind those. */
  private final int catalogued;

  private final int clocks;
  private final ControlPlan plan;
  private final Foretelling foretelling;
  private final DayShapes shapes;
  private final StoryRates rates;
  private final Stories stories;
  private final boolean coil;
  private final double[] basePrior;
  private final double evenPrior;
  private List<Hypothesis> alive = new ArrayList<>();
  private BookedDays booked = new BookedDays();
  private int lastGrade = -1;
  private double lastPressure = 1;

  /**
   * A filter at rest.
   *
   * @param catalogued number of responses of the catalogue, before those of clocks that bleed the
   *     same whatever the load
   * @param shapes what the shape of the day says where the makeup is logged
   * @param foretelling what the stories foretell of each period
   * @param coil whether evaporation is modelled through a coil, with less certainty
   * @param basePrior by grade, deviation of the base load that the shape lacks, part of reference
   * @param evenPrior deviation of the part by which the load is more even than the shape
   * @param rates how often stories begin and end at this plant
   */
  FaultFilter(
      List<Period> periods,
      List<Response> responses,
      int catalogued,
      Refills refills,
      ControlPlan plan,
      DayShapes shapes,
      Foretelling foretelling,
      boolean coil,
      double[] basePrior,
      double evenPrior,
      StoryRates rates) {
    this.coil = coil;
    this.basePrior = basePrior;
    this.evenPrior = evenPrior;
    this.periods = periods;
    this.responses = responses;
    this.refills = refills;
    this.catalogued = catalogued;
    this.clocks = responses.size() - catalogued;
    this.plan = plan;
    this.shapes = shapes;
    this.foretelling = foretelling;
    this.rates = rates;
    this.stories = new Stories(periods, responses);
  }

  /** Probability that nothing was ever wrong. */
  double soundness() {
    double sum = 0;
    for (Hypothesis h : alive) {
      sum += signature(h).sane() ? Math.exp(h.logWeight) : 0;
    }
    return sum;
  }

  List<Hypothesis> alive() {
    return alive;
  }

  /** The hypotheses as they stand before any measurement. */
  void start(int grade) {
    alive = new ArrayList<>();
    booked = new BookedDays();
    lastPressure = periods.isEmpty() ? 1 : periods.get(0).fillPressure();
    double faulty = 0;
    for (int s = 1; s < catalogued; s++) {
      Signature signature = responses.get(s).signature;
      if (signature.sane()) {
        continue;
      }
      double weight = rates.onTheFirstDay(signature, lastPressure);
      faulty += weight;
      alive.add(fresh(s, Math.log(weight), grade));
    }
    alive.add(0, fresh(0, Math.log(Math.max(0.3, 1 - faulty)), grade));
    List<Hypothesis> byClock = new ArrayList<>();
    for (int c = 0; c < clocks; c++) {
      for (Hypothesis h : alive) {
        byClock.add(h.living(catalogued + c, h.logWeight + Math.log(CLOCK_ODDS / clocks)));
      }
    }
    alive.addAll(byClock);
    lastGrade = grade;
  }

  private Hypothesis fresh(int signature, double logWeight, int grade) {
    Hypothesis hypothesis = new Hypothesis(signature, Hypothesis.ALWAYS, logWeight, booked);
    double habit = habitPrior(0);
    hypothesis.calibration.widenHabit(habit * habit);
    hypothesis.calibration.widenScatter(1);
    hypothesis.calibration.widenEven(evenPrior * evenPrior);
    widen(hypothesis, grade);
    hypothesis.days = shapes.unknown();
    return hypothesis;
  }

  private void widen(Hypothesis hypothesis, int grade) {
    double load = Math.hypot(LOAD_PRIOR[grade], coil ? COIL_PRIOR : 0);
    hypothesis.calibration.widenLoad(load * load);
    double base = basePrior[grade];
    hypothesis.calibration.widenBase(base * base);
  }

  /** Deviation of the basin's habit from its aim before it is known, ln. */
  private double habitPrior(int block) {
    boolean told = !Double.isNaN(plan.targetCycles()[block]);
    return switch (plan.control()[block]) {
      case CONDUCTIVITY -> told ? 0.07 : 0.3;
      case MAKEUP_PROPORTIONAL -> told ? 0.10 : 0.3;
      case TIMER -> told ? LOOSE_HABIT : 0.35;
      case MANUAL, NONE -> told ? HAND_HABIT : 0.4;
    };
  }

  /** Takes one period in. */
  void step(int p, int monthOfMiddle) {
    Period period = periods.get(p);
    if (lastGrade != period.grade()) {
      regrade(period.grade());
    }
    if (lastPressure != period.fillPressure()) {
      press(period.fillPressure());
    }
    end(p, period);
    spawn(p, period);
    double months = period.days() / 30.4;
    double loadWander = LOAD_WANDER[period.grade()];
    double baseWander = BASE_WANDER * basePrior[period.grade()];
    double moved = period.aimMoved() ? 0.2 * 0.2 : 0;
    BlowdownControl control = plan.control()[Math.max(0, (int) period.from())];
    double kept = 1;
    double taken;
    double strays = 0;
    if (control == BlowdownControl.CONDUCTIVITY) {
      taken = 0.012 * 0.012 * months;
    } else if (control == BlowdownControl.MAKEUP_PROPORTIONAL) {
      taken = 0.02 * 0.02 * months;
    } else {
      boolean timed = control == BlowdownControl.TIMER;
      double habit = timed ? LOOSE_HABIT : HAND_HABIT;
      double memories = months / (timed ? LOOSE_HABIT_MONTHS : HAND_HABIT_MONTHS);
      kept = Math.exp(-memories);
      taken = (1 - kept * kept) * habit * habit;
      strays = habit * habit * strayed(memories);
    }
    double scatterKept = Math.exp(-period.days() / SCATTER_DAYS);
    boolean firstOfMonth = booked.book(monthOfMiddle, period.days());
    PeriodWeighing weighing = foretelling.weighing(p, period, strays);
    for (Hypothesis h : alive) {
      Calibration c = h.calibration;
      c.widenLoad(loadWander * loadWander * months);
      c.widenBase(baseWander * baseWander * months);
      c.widenSize(SIZE_WANDER * SIZE_WANDER * months);
      if (h.way != 0 && responses.get(h.way).byClock()) {
        c.widenHabit(CLOCK_MOVED * CLOCK_MOVED * months + moved);
      } else {
        c.fadeHabit(kept, taken + moved);
      }
      c.fadeScatter(scatterKept, 1 - scatterKept * scatterKept);
      weighing.weigh(h);
      shapes.weigh(h, p, period);
      weighing.lean(h);
      h.book(monthOfMiddle, firstOfMonth, period.days(), period.loadScatter());
    }
    alive = stories.prune(stories.forget(alive, p), p);
  }

  /**
   * Variance of one instant about the mean of its stretch, in variances of a quantity that forgets
   * exponentially, for an instant anywhere within the stretch.
   *
   * @param memories length of the stretch over the time constant of forgetting, above 0
   */
  private static double strayed(double memories) {
    return 1 - 2 * (memories - 1 + Math.exp(-memories)) / (memories * memories);
  }

  private Signature signature(Hypothesis h) {
    return responses.get(h.was).signature;
  }

  private Cause cause(Hypothesis h) {
    return signature(h).cause();
  }

  /**
   * Heat known better or worse than before has a multiplier of its own. Where evidence falls silent
   * its load is carried on, less certainly; when it speaks again it is known as before.
   */
  private void regrade(int grade) {
    for (Hypothesis h : alive) {
      KnownLoads loads = h.loads == null ? new KnownLoads() : h.loads;
      h.loads = loads;
      loads.keep(lastGrade, h.calibration);
      if (grade > lastGrade) {
        widen(h, grade);
      } else if (!loads.recall(grade, h.calibration)) {
        h.calibration.setLoad(0, 0);
        h.calibration.setBase(0, 0);
        widen(h, grade);
      }
    }
    lastGrade = grade;
  }

  /** A pressure read anew leans on all that is held of the fill valve, since whenever it leaks. */
  private void press(double fillPressure) {
    double leaning = Math.log(fillPressure / lastPressure);
    for (Hypothesis h : alive) {
      h.logWeight += cause(h) == Cause.FILL_VALVE_LEAKING_BY ? leaning : 0;
    }
    lastPressure = fillPressure;
  }

  private void spawn(int p, Period period) {
    List<Hypothesis> bases = new ArrayList<>();
    for (Hypothesis h : alive) {
      if (h == sound() || (h.soundAllAlong() && h.logWeight > LEAST_BASE)) {
        bases.add(h);
      }
    }
    for (int s = 1; s < catalogued; s++) {
      double rate = rates.within(period, responses.get(s).signature);
      if (rate > 0) {
        double odds = Math.log(rate);
        for (Hypothesis base : bases) {
          alive.add(base.begin(s, p, base.logWeight + odds));
        }
      }
    }
    refill(p, period);
  }

  /** Follows a drain that nobody noted, where thin water or a burst of makeup hints at one. */
  private void refill(int p, Period period) {
    Hypothesis sound = sound();
    int from = Math.max(0, (int) period.from());
    for (int b = from; b < Math.min(period.to(), plan.startsUp().length); b++) {
      if (plan.startsUp()[b]) {
        int refill = refills.at(b);
        for (Hypothesis h : faulty()) {
          alive.add(h.living(refill, h.logWeight + Math.log(FILLED_ANEW)));
        }
        alive.add(sound.begin(refill, p, sound.logWeight + Math.log(FILLED_ANEW)));
        return;
      }
    }
    boolean thin = thin(sound, p, period);
    if (thin || burst(sound, p, period)) {
      double rate = DRAINS_UNNOTED * period.days() / 365.25;
      int middle = (int) (0.5 * (period.from() + period.to()));
      int refill = refills.at(middle);
      drain(refill, p, period, rate);
      alive.add(sound.begin(refill, p, sound.logWeight + Math.log(rate)));
      if (thin && p > 0) {
        // The water came in the period before, and only its thinness is seen in this one.
        int end = Math.max(0, from - 1);
        int before = refills.at(end);
        drain(before, p, period, rate);
        alive.add(sound.begin(before, p, sound.logWeight + Math.log(rate)));
      }
    }
  }

  private boolean thin(Hypothesis h, int p, Period period) {
    return foretelling.sampleGap(h, p, period) < THIN;
  }

  private boolean burst(Hypothesis h, int p, Period period) {
    return foretelling.makeupGap(h, p, period) > BURST * plan.volumeL();
  }

  /** Lets a drain befall faulty systems too: a leak does not end by it. */
  private void drain(int refill, int p, Period period, double odds) {
    for (Hypothesis h : faulty()) {
      if (thin(h, p, period) || burst(h, p, period)) {
        alive.add(h.living(refill, h.logWeight + Math.log(odds)));
      }
    }
  }

  /** The likeliest stories of a fault that goes on. */
  private List<Hypothesis> faulty() {
    List<Hypothesis> faulty = new ArrayList<>();
    for (Hypothesis h : alive) {
      if (h.logWeight > LEAST_DRAINED && !signature(h).sane() && !h.over() && h.way == 0) {
        faulty.add(h);
      }
    }
    return faulty;
  }

  private Hypothesis sound() {
    return alive.get(0);
  }

  /** Lets faults end within the period: by work done in it, or by themselves. */
  private void end(int p, Period period) {
    Endings odds = Endings.within(period, responses, catalogued);
    List<Hypothesis> endings = new ArrayList<>();
    for (Hypothesis h : alive) {
      if (h.signature == 0 || h.signature >= catalogued) {
        continue;
      }
      if (h.logWeight > LEAST_STORY) {
        endings.add(h.ended(p, h.logWeight + odds.ends()[h.signature]));
      }
      h.logWeight += odds.goesOn()[h.signature];
    }
    alive.addAll(endings);
  }
}
