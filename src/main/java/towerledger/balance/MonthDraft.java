package towerledger.balance;

import java.time.Instant;
import java.time.YearMonth;
import java.util.ArrayList;
import java.util.List;
import java.util.Optional;
import towerledger.quantity.CalendarMonth;
import towerledger.quantity.Span;
import towerledger.statistics.NormalMixture;

/** The figures of one month while they are being worked out. NaN where nothing is known. */
final class MonthDraft {

  private static final double Z95 = 1.959964;

  /** A month with more of its weather filled in than this is known one grade less well. */
  private static final double MOST_FILLED = 0.2;

  final SystemPass pass;
  final int month;
  final Posterior posterior;
  final EvidenceGrade grade;
  final double filledWeather;
  final double from;
  final double to;
  final MonthChemistry chemistry;

  boolean metered;
  boolean modelled;
  boolean implausible;
  double implausibleL;
  boolean flagged;
  double covered;
  double makeup = Double.NaN;
  double makeupDeviation;
  double otherUse = Double.NaN;
  double meteredBleed = Double.NaN;
  double unknownHours;
  double storage = Double.NaN;
  double drift = Double.NaN;
  double modelEvaporation = Double.NaN;
  double evaporation = Double.NaN;

  /** Part of the evaporation that the told or guessed shape of the load does not have, L. */
  double besideShape;

  double evaporationDeviation;
  double multiplier = 1;
  double multiplierDeviation;
  double scatterDeviation;

  /** Deviation of the expected makeup by what is not known of the bleed, as a part of it. */
  double bleedDeviation;

  double soundModel = Double.NaN;
  double expected = Double.NaN;
  double expectedDeviation;
  boolean expectedByRest;

  /** Makeup expected at the load that the evidence tells, right or wrong, L, and its deviation. */
  private double told = Double.NaN;

  private double toldDeviation;
  double loss;
  double lossLow;
  double lossHigh;
  double excess;
  double fresh;
  double meterCorrection;
  double gross;
  Cause named = Cause.NONE;
  Instant lastFact;

  MonthDraft(SystemPass pass, Posterior posterior) {
    this.pass = pass;
    this.month = posterior.month();
    this.posterior = posterior;
    from = pass.frame.from(month);
    to = pass.frame.to(month);
    chemistry = MonthChemistry.of(pass, from, to);
    Span span = CalendarMonth.of(name(), pass.facts.zone()).span();
    lastFact = span.endExclusive();
    int[] count = new int[EvidenceGrade.values().length];
    for (int h = hour(from); h < Math.min(hour(to), pass.hours.count()); h++) {
      count[pass.hours.grade()[h]]++;
    }
    int byHeat = PeriodBuilder.worstCommon(count);
    filledWeather = pass.facts.weather().filledShare(span);
    grade =
        EvidenceGrade.values()[
            filledWeather > MOST_FILLED
                ? Math.min(byHeat + 1, EvidenceGrade.values().length - 1)
                : byHeat];
  }

  YearMonth name() {
    return pass.frame.months().get(month);
  }

  private static int hour(double position) {
    return (int) Math.round(position * QuarterDays.HOURS);
  }

  void readMeters(double leastCovered) {
    MeteredWater.Amount in = pass.makeup.between(from, to, pass.soundUse);
    covered = pass.makeup.present() ? in.covered() : 0;
    implausibleL = pass.makeup.impossibleL(from, to);
    implausible = implausibleL > 0;
    if (covered >= leastCovered) {
      metered = true;
      makeup = in.wholeL();
      makeupDeviation = Math.hypot(in.wholeDeviation(), 0.5 * pass.makeup.accuracy() * makeup);
      if (!in.lastFact().equals(Instant.MIN)) {
        lastFact = in.lastFact();
      }
    }
    otherUse =
        pass.otherUse.present() ? pass.otherUse.wholeL(from, to, pass.soundUse, leastCovered) : 0;
    meteredBleed = pass.bleed.wholeL(from, to, pass.soundBleed, leastCovered);
  }

  void readModel(double mostUnknown) {
    double total = 0;
    double unknown = 0;
    double drains = 0;
    double loadHours = 0;
    double runHours = 0;
    double evenedL = 0;
    int blocks = 0;
    for (int b = (int) Math.round(from); b < Math.min(Math.round(to), pass.blocks.count); b++) {
      total += pass.blocks.evaporationL[b];
      unknown += pass.blocks.unknownHours[b];
      loadHours += pass.blocks.loadHours[b];
      runHours += pass.blocks.runHours[b];
      evenedL += pass.blocks.evenedL[b];
      drains += pass.plan.drainedL()[b];
      blocks++;
    }
    unknownHours = unknown / (blocks * (double) QuarterDays.HOURS);
    storage = drains;
    modelled = unknownHours <= mostUnknown;
    if (!modelled) {
      return;
    }
    modelEvaporation = total;
    drift = pass.plan.driftPerLoadHourL() * loadHours;
    LackedWater lacked = pass.lacked;
    soundModel = pass.responses.get(0).monthMakeup[month];
    StoryMoments refills = new StoryMoments();
    StoryMoments habits = new StoryMoments();
    StoryMoments loads = new StoryMoments();
    StoryMoments sounds = new StoryMoments();
    StoryMoments tolds = new StoryMoments();
    StoryMoments besideShapes = new StoryMoments();
    StoryMoments evaporations = new StoryMoments();
    boolean measuredLoad = pass.believed(grade).compareTo(EvidenceGrade.C) < 0;
    for (Hypothesis h : posterior.hypotheses()) {
      double w = h.weight();
      double factor = actual(h);
      double load = h.loadFactor() * factor;
      double here = h.loadFactorIn(month) * factor;
      double byShape = pass.losses.byHabit(h, month, load);
      double soundHere = byShape + lacked.monthMakeup(h, month, byShape);
      double toldHere = measuredLoad && factor > 1 ? soundMakeup(h, h.loadFactor()) : soundHere;
      double besides =
          LackedWater.bounded(h.lacked(pass.referencePerHourL * runHours, evenedL), here * total);
      double relative =
          soundHere > 0
              ? h.loadVariance() + h.baseVariance() * square(lacked.monthBase()[month] / soundHere)
              : h.loadVariance();
      double byHabit =
          soundHere > 0 ? pass.losses.habitVariance(h, month, byShape) / square(soundHere) : 0;
      refills.add(w, pass.losses.refillL(h, month), 0);
      habits.add(w, byHabit, 0);
      loads.add(w, load, relative);
      sounds.add(w, soundHere, relative + byHabit);
      tolds.add(w, toldHere, relative + byHabit);
      besideShapes.add(w, besides, 0);
      evaporations.add(
          w, here * total + besides, relative + h.scatterVariance() * square(monthScatter()));
    }
    storage += refills.mean();
    multiplier = loads.mean();
    multiplierDeviation = Math.sqrt(loads.variance()) / multiplier;
    scatterDeviation = monthScatter();
    bleedDeviation = Math.sqrt(habits.mean() + square(pass.losses.stray(month)));
    expected = sounds.mean();
    expectedDeviation = deviation(sounds.variance(), expected);
    told = tolds.mean();
    toldDeviation = deviation(tolds.variance(), told);
    besideShape = besideShapes.mean();
    evaporation = evaporations.mean();
    evaporationDeviation = Math.sqrt(evaporations.variance() + square(0.015 * evaporation));
  }

  /** Makeup that a story expects of a sound system at a load multiplier, L. */
  private double soundMakeup(Hypothesis h, double load) {
    double byShape = pass.losses.byHabit(h, month, load);
    return byShape + pass.lacked.monthMakeup(h, month, byShape);
  }

  /** Deviation of an expected makeup: of the stories, of one month, of the water that is kept. */
  private double deviation(double spread, double litres) {
    return Math.sqrt(
        spread
            + square(litres) * (square(scatterDeviation) + square(pass.losses.stray(month)))
            + 0.09 * storage * storage
            + square(0.02 * pass.plan.volumeL()));
  }

  private double monthScatter() {
    return switch (grade) {
      case A -> 0.02;
      case B -> 0.03;
      case C -> 0.05;
      case D -> 0.07;
    };
  }

  private static double square(double x) {
    return x * x;
  }

  /** Factor between the modelled load and the load as a hypothesis has it. */
  private double actual(Hypothesis h) {
    double factor = pass.responses.get(h.was).signature.loadFactor();
    return factor == 1 ? 1 : 1 + (factor - 1) * pass.losses.active(h, month);
  }

  /**
   * Fixes what depends on the verdict. Once water is held to be wasted, the loss is the one told by
   * the stories in which it is; its interval keeps the others.
   */
  void settle(boolean isFlagged, boolean waste, Cause likeliest, NormalMixture mixture) {
    flagged = isFlagged;
    named = isFlagged ? likeliest : Cause.NONE;
    VolumeEstimate bounded = MonthAssembler.bounded(mixture);
    loss = bounded.value().litres();
    lossLow = bounded.low().litres();
    lossHigh = bounded.high().litres();
    if (!flagged) {
      return;
    }
    double weights = 0;
    double wasting = 0;
    double freshSum = 0;
    double concentrated = 0;
    double grossSum = 0;
    double meter = 0;
    double[] told = new double[2];
    for (Hypothesis h : posterior.hypotheses()) {
      double w = h.weight();
      weights += w;
      Signature signature = pass.responses.get(h.was).signature;
      double active = pass.losses.active(h, month);
      if (signature.makeupFactor() != 1) {
        double factor = 1 + active * (signature.makeupFactor() - 1);
        meter += w * makeup * (1 - 1 / factor);
      }
      if (signature.drawsWater() && active > 0) {
        pass.losses.told(h, month, netMakeup(), floor(), told);
        wasting += w;
        grossSum += w * pass.losses.gross(h, month);
        if (signature.fresh()) {
          freshSum += w * told[0];
        } else {
          concentrated += w * told[0];
        }
      }
    }
    if (waste) {
      fresh = freshSum / wasting;
      excess = concentrated / wasting;
      gross = Math.max(fresh + excess, grossSum / wasting);
      loss = Math.max(lossLow, Math.min(lossHigh, fresh + excess));
      // What is left of the measured tells the sound makeup best.
      expected = Math.max(0, netMakeup() - loss);
      expectedByRest = true;
      expectedDeviation = Math.max(0.01 * makeup, (lossHigh - lossLow) / 2 / Z95);
    } else if (named != Cause.FILL_VALVE_SHUT) {
      meterCorrection = meter / weights;
    }
  }

  /**
   * Makeup over what the evidence of heat explains, in standard deviations of the two. Evidence
   * that may be wrong explains nothing away: waste and a wrong load are what the surplus speaks
   * for.
   */
  double surplus() {
    return (netMakeup() - told) / Math.hypot(toldDeviation, makeupDeviation);
  }

  /** Makeup that went to the system, L. */
  double netMakeup() {
    return net(makeup, otherUse);
  }

  /** Makeup that went to the system, L; other use that is not known takes nothing away. */
  static double net(double makeup, double otherUse) {
    return makeup - (Double.isNaN(otherUse) ? 0 : otherUse);
  }

  /** Deviation that a loss keeps even when its cause is certain: meter, reading, rounding. */
  double floor() {
    return 1
        + Math.sqrt(
            square(0.012 * makeup) + square(0.3 * makeupDeviation) + square(0.002 * expected));
  }

  double neededBleed() {
    return chemistry.neededBleed(evaporation, drift);
  }

  double bleedFigure() {
    return Double.isNaN(meteredBleed) ? chemistry.impliedBleed(evaporation, drift) : meteredBleed;
  }

  Optional<VolumeEstimate> makeupEstimate() {
    return metered ? Optional.of(estimate(makeup, makeupDeviation)) : Optional.empty();
  }

  VolumeEstimate estimate(double value, double deviation) {
    return VolumeEstimate.ofLitres(
        value, Math.min(value, Math.max(0, value - Z95 * deviation)), value + Z95 * deviation);
  }

  WaterFigures figures() {
    double other = Double.isNaN(otherUse) ? 0 : otherUse;
    double unaccounted = makeup - other - expected;
    double wide = Math.hypot(expectedDeviation, makeupDeviation);
    double needed = neededBleed();
    double neededOrZero = Double.isNaN(needed) ? 0 : needed;
    double residual =
        makeup
            - evaporation
            - drift
            - neededOrZero
            - excess
            - fresh
            - other
            - storage
            - meterCorrection;
    return new WaterFigures(
        makeupEstimate(),
        Optional.of(estimate(expected, expectedDeviation)),
        Optional.of(
            VolumeEstimate.ofLitres(
                unaccounted, unaccounted - Z95 * wide, unaccounted + Z95 * wide)),
        Optional.of(estimate(evaporation, evaporationDeviation)),
        MonthAssembler.volume(drift),
        MonthAssembler.volume(needed),
        MonthAssembler.volume(excess),
        MonthAssembler.volume(fresh),
        MonthAssembler.volume(other),
        MonthAssembler.volume(storage),
        MonthAssembler.volume(meterCorrection),
        MonthAssembler.volume(residual),
        MonthAssembler.volume(bleedFigure()),
        MonthAssembler.volume(gross),
        Optional.of(VolumeEstimate.ofLitres(loss, lossLow, lossHigh)),
        MonthAssembler.optional(chemistry.cycles()),
        MonthAssembler.optional(chemistry.targetCycles()));
  }

  List<String> missing() {
    List<String> missing = new ArrayList<>();
    if (!pass.makeup.present()) {
      missing.add("there is no makeup meter");
    } else if (!metered && implausible) {
      missing.add(
          "makeup readings give %.0f L, more than the fill could pass".formatted(implausibleL));
    } else if (!metered) {
      missing.add("makeup readings cover %.0f %% of the month".formatted(100 * covered));
    }
    if (!modelled) {
      missing.add("weather is missing for %.0f %% of the hours".formatted(100 * unknownHours));
    }
    return missing;
  }

  List<String> assumptions() {
    return Notes.assumptions(this);
  }

  List<String> whatToAdd() {
    return Notes.whatToAdd(this);
  }

  List<BudgetLine> budget() {
    return Notes.budget(this);
  }

  List<WorkingStep> working() {
    return Notes.working(this);
  }
}
