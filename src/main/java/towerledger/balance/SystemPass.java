package towerledger.balance;

import java.time.Instant;
import java.time.YearMonth;
import java.time.ZoneId;
import java.util.ArrayList;
import java.util.Arrays;
import java.util.HashMap;
import java.util.List;
import java.util.Map;
import java.util.function.Consumer;
import towerledger.balance.facts.MeterFacts;
import towerledger.balance.facts.OperatingSettings;
import towerledger.balance.facts.SystemAttributes;
import towerledger.balance.facts.SystemFacts;
import towerledger.quantity.CalendarMonth;
import towerledger.statistics.NormalMixture;

/** One walk through a system's record, from its first month to its last. */
final class SystemPass {

  /** Load that a tower carries on a long average, as a fraction of nominal; sets a scale only. */
  private static final double REFERENCE_LOAD = 0.35;

  /** Evaporation that a clock may be set for, as a multiple of the reference. */
  private static final double[] CLOCKS = {0.07, 0.13, 0.25, 0.47, 0.9, 1.7};

  private static final double PROBE_WITHOUT_CONTROLLER = 0.02;

  private static final double LATENT_J_PER_L = 2.43e6;

  /** Log of the weight below which a story adds nothing to a month's figures. */
  private static final double LEAST_WEIGHT = -12;

  final SystemFacts facts;
  final MonthFrame frame;
  final QuarterDays blocks;
  final ControlPlan plan;
  final SystemHours hours;
  final MeteredWater makeup;
  final MeteredWater bleed;
  final MeteredWater otherUse;
  final double[] soundUse;
  final double[] soundBleed;
  final List<Period> periods;
  final List<Response> responses;
  final LackedWater lacked;
  private final Refills refills;
  final LoggedDays loggedDays;
  final LossEstimate losses;
  final VerdictRule rule;

  /** Evaporation of the reference load, L/h. */
  final double referencePerHourL;

  final List<String> modelAssumptions = new ArrayList<>();
  private final FaultFilter filter;

  private SystemPass(
      ReconciliationPolicy policy, TowerTables tables, SystemFacts facts, List<YearMonth> months) {
    this.facts = facts;
    ZoneId zone = facts.zone();
    Instant start = CalendarMonth.of(months.get(0), zone).span().startInclusive();
    start = Instant.ofEpochSecond(Math.floorDiv(start.getEpochSecond(), 3600) * 3600);
    Instant end = RecordSpan.end(facts, months.get(months.size() - 1));
    int blocksLong =
        (int)
            Math.ceil((end.getEpochSecond() - start.getEpochSecond()) / 3600.0 / QuarterDays.HOURS);
    int count = blocksLong * QuarterDays.HOURS;
    hours = HourlyModel.of(facts, start, count, tables, modelAssumptions);
    blocks = QuarterDays.of(hours, zone);
    frame = MonthFrame.of(months, zone, blocks);
    plan = ControlPlanner.plan(facts, blocks);
    double most = ControlPlanner.mostPerHourL(facts);
    makeup = MeteredWater.of(facts.meters(), MeterFacts.Role.MAKEUP, blocks, most);
    bleed = MeteredWater.of(facts.meters(), MeterFacts.Role.BLOWDOWN, blocks, most);
    otherUse = MeteredWater.of(facts.meters(), MeterFacts.Role.OTHER_USE, blocks, most);
    double reference = ControlPlanner.nominalWatts(facts) * REFERENCE_LOAD * 3600 / LATENT_J_PER_L;
    referencePerHourL = reference;
    BasinWalk walk = new BasinWalk(blocks, hours, plan, reference);
    walk.walk(Signature.sound());
    soundUse = walk.makeup.clone();
    soundBleed = walk.bleed.clone();
    double[] soundConcentration = walk.concentration.clone();
    periods =
        new PeriodBuilder(
                facts,
                hours,
                blocks,
                plan,
                makeup,
                bleed,
                otherUse,
                soundUse,
                soundBleed,
                reference * QuarterDays.HOURS)
            .build(months, zone);
    lacked = LackedWater.of(blocks, plan, reference, periods, frame);
    responses = new ArrayList<>();
    Map<Signature.Flow, Response> flows = new HashMap<>();
    for (Signature signature : SignatureCatalogue.of(policy, bleed.present())) {
      Response alike = flows.get(signature.flow());
      if (alike == null) {
        if (walk.sparesBasin(signature)) {
          walk.walkFresh(signature);
          alike = Response.ofFresh(signature, responses.get(0), walk, periods, frame);
        } else {
          walk.walk(signature);
          alike = new Response(signature, walk, periods, frame);
        }
        flows.put(signature.flow(), alike);
        responses.add(alike);
      } else {
        responses.add(new Response(signature, alike, periods));
      }
    }
    grow(responses);
    int catalogued = responses.size();
    if (plan.bleedsByTimer()) {
      for (double level : CLOCKS) {
        walk.walkByClock(level * reference);
        responses.add(Response.ofClock(walk, periods, frame));
      }
    }
    refills = new Refills(walk, soundConcentration, plan.volumeL(), periods, frame, responses);
    double[] logged = makeup.loggedL();
    double[] soundFlow = logged.length > 0 ? SoundFlow.of(hours, plan) : new double[0];
    loggedDays = new LoggedDays(logged, soundFlow, makeup, start.getEpochSecond());
    losses =
        new LossEstimate(
            responses, lacked, BleedStray.byMonth(responses.get(0), plan, frame), periods, frame);
    rule = new VerdictRule(policy, responses, losses, reference * 24 * 30.4);
    filter =
        new FaultFilter(
            periods,
            responses,
            catalogued,
            refills,
            plan,
            DayShapes.of(
                facts, hours, plan, makeup, logged, soundFlow, periods, responses, lacked,
                reference),
            new Foretelling(
                responses,
                lacked,
                plan.volumeL(),
                0.02 * reference * 24,
                makeup.accuracy(),
                bleed.accuracy()),
            facts.attributes().kind() != SystemAttributes.Kind.OPEN,
            basePriors(),
            evenPrior(),
            new StoryRates(plan, plantFactors()));
  }

  /** Tells each loss how it grows, by the sizes next to it on its ladder. */
  private static void grow(List<Response> responses) {
    for (int r = 1; r < responses.size(); r++) {
      Response after = responses.get(Math.min(r + 1, responses.size() - 1));
      responses.get(r).growBetween(responses.get(r - 1), after);
    }
  }

  static SystemPass of(
      ReconciliationPolicy policy, TowerTables tables, SystemFacts facts, List<YearMonth> months) {
    return new SystemPass(policy, tables, facts, months);
  }

  /** Whether in much of a month the tower may have evaporated far less than modelled. */
  boolean vague(int month) {
    return hours.vaguePart(frame.from(month), frame.to(month)) > 0.2;
  }

  /**
   * What a month measures a cause's size by.
   *
   * @param makeupL makeup, L
   * @param shortPart part of the expected makeup that was not drawn; NaN where it is not known yet
   * @param grade grade of its heat evidence
   */
  VerdictRule.Measure measure(int month, double makeupL, double shortPart, EvidenceGrade grade) {
    int block = frame.firstBlock(month, plan.control().length);
    return new VerdictRule.Measure(
        makeupL, shortPart, believed(grade), vague(month), plan.held(block));
  }

  /**
   * The grade at which a verdict may believe the load: a coil's evaporation is modelled too loosely
   * for more than a guess, however well the heat is metered.
   */
  EvidenceGrade believed(EvidenceGrade grade) {
    boolean coil = facts.attributes().kind() != SystemAttributes.Kind.OPEN;
    return coil && grade.compareTo(EvidenceGrade.C) < 0 ? EvidenceGrade.C : grade;
  }

  /**
   * Walks through the record once and hands over what is believed as each month closes.
   *
   * @param closed takes each month in turn, and may not keep its stories: they live on
   */
  void walk(Consumer<Posterior> closed) {
    filter.start(periods.isEmpty() ? EvidenceGrade.D.ordinal() : periods.get(0).grade());
    Instant[] detected = new Instant[frame.months().size()];
    Arrays.fill(detected, Instant.MIN);
    int p = 0;
    for (int month = 0; month < detected.length; month++) {
      while (p < periods.size() && periods.get(p).from() < frame.to(month)) {
        filter.step(p, frame.at(0.5 * (periods.get(p).from() + periods.get(p).to())));
        noteDetection(p, detected);
        p++;
      }
      closed.accept(new Posterior(month, weighty(filter.alive()), p - 1, detected[month]));
    }
  }

  private void noteDetection(int p, Instant[] detected) {
    if (filter.soundness() > VerdictRule.SOUND_ENOUGH) {
      return;
    }
    Period period = periods.get(p);
    int first = Math.max(0, frame.at(period.from()));
    for (int m = first; m < Math.min(first + 2, detected.length); m++) {
      if (frame.from(m) >= period.to() || !detected[m].equals(Instant.MIN)) {
        continue;
      }
      double makeupL = Math.max(1, modelled(filter.alive(), m));
      VerdictRule.Measure measure =
          measure(m, makeupL, Double.NaN, EvidenceGrade.values()[period.grade()]);
      boolean stands =
          rule.wasteProbability(filter.alive(), m, makeupL) >= measure.limit()
              || rule.faulty(rule.causes(filter.alive(), m, measure), measure);
      if (stands) {
        detected[m] = period.lastFact();
      }
    }
  }

  private double modelled(List<Hypothesis> hypotheses, int month) {
    NormalMixture mixture = new NormalMixture();
    for (Hypothesis h : hypotheses) {
      mixture.add(h.weight(), h.loadFactor() * responses.get(h.was).monthMakeup[month], 1);
    }
    return mixture.mean();
  }

  /** The stories that a month's figures are told by; the plain sound one is always among them. */
  private static List<Hypothesis> weighty(List<Hypothesis> alive) {
    List<Hypothesis> weighty = new ArrayList<>(alive.size());
    for (Hypothesis h : alive) {
      if (h.logWeight > LEAST_WEIGHT || h.was == 0) {
        weighty.add(h);
      }
    }
    return weighty;
  }

  /**
   * By grade: how much of the reference load the shape may lack, or give too much, at all hours.
   */
  private double[] basePriors() {
    return new double[] {0.005, 0.03, 0.06, useKnown() ? 0.12 : 0.5};
  }

  /**
   * By what part the load may be more even, or less, than the shape has it between two readings of
   * heat: from the stop at night to the machine hall that never changes where the use is not told.
   */
  private double evenPrior() {
    return useKnown() ? 0.2 : 0.45;
  }

  private boolean useKnown() {
    return facts.attributes().buildingUse().isPresent()
        || facts.attributes().heatSource().orElse(null) == SystemAttributes.HeatSource.PROCESS;
  }

  private double[] plantFactors() {
    double[] factors = new double[Cause.values().length];
    Arrays.fill(factors, 1);
    if (facts.settings().isEmpty()) {
      return factors;
    }
    OperatingSettings first = facts.settings().get(0);
    if (first.blowdownControl().isPresent()
        && first.blowdownControl().get() != OperatingSettings.BlowdownControl.CONDUCTIVITY) {
      // Without a controller no probe steers the bleed; only the samples may be wrong.
      factors[Cause.CONDUCTIVITY_ERROR.ordinal()] *= PROBE_WITHOUT_CONTROLLER;
    }
    first
        .levelControl()
        .ifPresent(
            control -> {
              for (Cause cause : Cause.values()) {
                factors[cause.ordinal()] *= SideEvidence.levelControl(cause, control);
              }
            });
    return factors;
  }
}
