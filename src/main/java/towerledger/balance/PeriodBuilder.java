package towerledger.balance;

import java.time.Instant;
import java.time.YearMonth;
import java.time.ZoneId;
import java.util.ArrayList;
import java.util.List;
import towerledger.balance.facts.OperatingSettings.BlowdownControl;
import towerledger.balance.facts.SystemFacts;
import towerledger.balance.facts.Visit;
import towerledger.balance.facts.WaterSample;
import towerledger.quantity.CalendarMonth;

/** Cuts the record into periods at its own readings and gathers what was measured in each. */
final class PeriodBuilder {

  /** Least length of a period in blocks: shorter ones add work and no knowledge. */
  private static final double LEAST_BLOCKS = 6 * 4;

  /** Deviation of model and heat evidence from one season to the next by grade, ln. */
  private static final double[] LOAD_SCATTER = {0.025, 0.045, 0.09, 0.09};

  /** The same as a part of the mean evaporation: at low load percentages lose their meaning. */
  private static final double[] LOW_LOAD_SCATTER = {0.0125, 0.018, 0.048, 0.052};

  private static final double MOST_LOW_LOAD = 6;

  /** Deviation that the model of coil towers adds, ln; a judgement without a measured check. */
  private static final double COIL_SCATTER = 0.11;

  /** Deviation from season to season where the cold-water set-point is not known, ln. */
  private static final double SETPOINT_SCATTER = 0.03;

  private static final double HYBRID_SCATTER = 0.12;

  /** Deviation while a coil may run dry or an economizer cool without the chiller, ln. */
  private static final double VAGUE_SCATTER = 1.2;

  /** Deviation of a week's load from what its month was shared out to it, by grade, ln. */
  private static final double[] WEEK_NOISE = {0.015, 0.07, 0.08, 0.09};

  /** What it adds at the mean load, and more below it, where heat is told by more than a day. */
  private static final double LOW_LOAD_WEEK_NOISE = 0.02;

  /**
   * Evaporation after which a basin has forgotten what it held at first, as a part of its water and
   * of the cycles.
   */
  private static final double FORGOTTEN = 0.15;

  /** Scatter of one conductivity sample: two instruments and a stirred basin. */
  private static final double SAMPLE_SCATTER = 0.035;

  /** Scatter of cycles by two conductivities: the makeup moves while the basin lags. */
  private static final double CYCLES_SCATTER = 0.05;

  /** Scatter of cycles by chloride titration. */
  private static final double CHLORIDE_SCATTER = 0.08;

  private final SystemFacts facts;
  private final SystemHours hours;
  private final QuarterDays blocks;
  private final ControlPlan plan;
  private final MeteredWater makeup;
  private final MeteredWater bleed;
  private final MeteredWater otherUse;
  private final double[] use;
  private final double[] bleedUse;
  private final double[] evaporated;
  private final double meanPerBlockL;

  PeriodBuilder(
      SystemFacts facts,
      SystemHours hours,
      QuarterDays blocks,
      ControlPlan plan,
      MeteredWater makeup,
      MeteredWater bleed,
      MeteredWater otherUse,
      double[] use,
      double[] bleedUse,
      double meanPerBlockL) {
    this.meanPerBlockL = meanPerBlockL;
    this.facts = facts;
    this.hours = hours;
    this.blocks = blocks;
    this.plan = plan;
    this.makeup = makeup;
    this.bleed = bleed;
    this.otherUse = otherUse;
    this.use = use;
    this.bleedUse = bleedUse;
    this.evaporated = RunningTotals.of(blocks.evaporationL);
  }

  List<Period> build(List<YearMonth> months, ZoneId zone) {
    double[] cuts = cuts(months, zone);
    List<Period> periods = new ArrayList<>();
    for (int i = 0; i + 1 < cuts.length; i++) {
      periods.add(period(cuts[i], cuts[i + 1]));
    }
    return periods;
  }

  private double[] cuts(List<YearMonth> months, ZoneId zone) {
    List<Double> candidates = new ArrayList<>();
    double[] readings = makeup.readingPositions();
    for (double reading : readings) {
      if (reading >= 0
          && reading <= blocks.count
          && !makeup.byInterval(Math.max(0, reading - 8), Math.min(blocks.count, reading + 8))) {
        candidates.add(reading);
      }
    }
    double firstReading = readings.length == 0 ? Double.MAX_VALUE : readings[0];
    double lastReading = readings.length == 0 ? -1 : readings[readings.length - 1];
    for (YearMonth month : months) {
      double from = blocks.position(CalendarMonth.of(month, zone).span().startInclusive());
      double to = blocks.position(CalendarMonth.of(month, zone).span().endExclusive());
      // A week each, so that a weekend falls into every one.
      double step = (to - from) / 4;
      boolean unread = to <= firstReading || from >= lastReading;
      for (int quarter = 0; quarter < 4; quarter++) {
        double a = from + quarter * step;
        double b = a + step;
        boolean logged = makeup.byInterval(a, b);
        if (logged || (quarter == 0 && unread)) {
          candidates.add(a);
        }
        if (logged || (unread && quarter == 3)) {
          candidates.add(Math.min(blocks.count, b));
        }
      }
    }
    candidates.sort(null);
    List<Double> kept = new ArrayList<>();
    for (double candidate : candidates) {
      if (candidate >= 0
          && candidate <= blocks.count
          && (kept.isEmpty() || candidate - kept.get(kept.size() - 1) >= LEAST_BLOCKS)) {
        kept.add(candidate);
      }
    }
    return kept.stream().mapToDouble(Double::doubleValue).toArray();
  }

  private Period period(double from, double to) {
    Instant end = blocks.at(to);
    MeteredWater.Amount in = makeup.between(from, to, use);
    boolean hasMakeup =
        makeup.present() && in.covered() > leastCovered(makeup, from, to) && knownHours(from, to);
    Instant lastFact = hasMakeup ? in.lastFact() : Instant.MIN;
    double makeupL = Double.NaN;
    double makeupDeviation = 0;
    if (hasMakeup) {
      MeteredWater.Amount other = otherUse.between(from, to, use);
      boolean used = other.covered() > 0;
      makeupL = Math.max(0, in.wholeL() - (used ? other.wholeL() : 0));
      makeupDeviation = Math.hypot(in.wholeDeviation(), used ? other.wholeDeviation() : 0);
    }
    MeteredWater.Amount out = bleed.between(from, to, bleedUse);
    boolean hasBleed = bleed.present() && out.covered() > leastCovered(bleed, from, to);
    List<Visit> visits =
        facts.visits().stream()
            .filter(
                v -> {
                  double at = blocks.position(v.at());
                  return at >= from && at < to;
                })
            .toList();
    for (Visit visit : visits) {
      if (!visit.findings().isEmpty() && visit.at().isAfter(lastFact)) {
        lastFact = visit.at();
      }
    }
    List<Integer> sampleBlocks = new ArrayList<>();
    double sum = 0;
    double weight = 0;
    for (WaterSample sample : facts.samples()) {
      double at = blocks.position(sample.takenAt());
      if (at < from || at >= to || sample.weakerThanMakeup() || tooEarly(at)) {
        continue;
      }
      int block = (int) at;
      double scatter = SAMPLE_SCATTER;
      double ratio = Double.NaN;
      if (sample.basinConductivityUsCm().isPresent()) {
        double basin = sample.basinConductivityUsCm().getAsDouble();
        if (sample.makeupConductivityUsCm().isPresent()
            && plan.control()[block] != BlowdownControl.CONDUCTIVITY) {
          // Without a controller the cycles are what is held, not the conductivity.
          double aimed = plan.aimUsCm()[block] / plan.freshUsCm()[block];
          ratio = basin / sample.makeupConductivityUsCm().getAsDouble() / aimed;
          scatter = CYCLES_SCATTER;
        } else if (plan.freshUsCm()[block] != 1) {
          ratio = basin / plan.aimUsCm()[block];
        } else if (sample.makeupConductivityUsCm().isPresent()) {
          ratio = basin / sample.makeupConductivityUsCm().getAsDouble() / plan.aimUsCm()[block];
        }
      } else if (sample.basinChlorideMgL().isPresent()
          && sample.makeupChlorideMgL().orElse(0) > 0) {
        ratio =
            sample.basinChlorideMgL().getAsDouble()
                / sample.makeupChlorideMgL().getAsDouble()
                / (plan.aimUsCm()[block] / plan.freshUsCm()[block]);
        scatter = CHLORIDE_SCATTER;
      }
      if (ratio > 0) {
        sampleBlocks.add(block);
        sum += Math.log(ratio) / (scatter * scatter);
        weight += 1 / (scatter * scatter);
        lastFact = sample.takenAt().isAfter(lastFact) ? sample.takenAt() : lastFact;
      }
    }
    int grade = grade(from, to);
    boolean moved = false;
    for (int b = (int) from; b < Math.min(to, blocks.count); b++) {
      moved |= plan.aimMoved()[b];
    }
    return new Period(
        from,
        to,
        makeupL,
        makeupDeviation,
        sampleBlocks.stream().mapToInt(Integer::intValue).toArray(),
        weight > 0 ? sum / weight : Double.NaN,
        weight > 0 ? Math.sqrt(1 / weight + 0.0002) : 0,
        hasBleed ? out.wholeL() : Double.NaN,
        hasBleed ? out.wholeDeviation() : out.deviation(),
        loadScatter(from, to, grade),
        weekNoise(from, to, grade),
        grade,
        moved,
        SideEvidence.pressure(FillPressure.overLimit(facts, end)),
        SideEvidence.leanings(visits),
        SideEvidence.cured(visits),
        lastFact.equals(Instant.MIN) ? end : lastFact);
  }

  /** Readings must enclose a period; a logger may have dropped some hours of it. */
  private static double leastCovered(MeteredWater water, double from, double to) {
    return water.byInterval(from, to) ? MeteredWater.LEAST_LOGGED : 0.995;
  }

  /** How many times the mean evaporation that of a stretch goes into, at most so often. */
  private double lowLoad(double from, double to) {
    double here = RunningTotals.between(evaporated, from, to) / (to - from);
    return here > 0 ? Math.min(MOST_LOW_LOAD, meanPerBlockL / here) : MOST_LOW_LOAD;
  }

  /** What is shared out by a guessed shape strays further where there is little of it. */
  private double weekNoise(double from, double to, int grade) {
    boolean shared = grade > EvidenceGrade.A.ordinal();
    double week =
        Math.hypot(WEEK_NOISE[grade], shared ? LOW_LOAD_WEEK_NOISE * lowLoad(from, to) : 0);
    return week * Math.sqrt(28 / Math.max(12, to - from));
  }

  private double loadScatter(double from, double to, int grade) {
    double low = lowLoad(from, to);
    double kind =
        switch (facts.attributes().kind()) {
          case OPEN -> 0;
          case CLOSED_CIRCUIT, EVAPORATIVE_CONDENSER -> COIL_SCATTER;
          case HYBRID -> HYBRID_SCATTER;
        };
    boolean told = facts.settings().stream().anyMatch(s -> s.coldWaterSetpointC().isPresent());
    double evidence =
        Math.hypot(
            Math.hypot(LOAD_SCATTER[grade], LOW_LOAD_SCATTER[grade] * low),
            told ? 0 : SETPOINT_SCATTER);
    return Math.hypot(Math.hypot(evidence, kind), VAGUE_SCATTER * hours.vaguePart(from, to));
  }

  /**
   * Whether a sample is too early to tell of the bleed: soon after a drain, or before a basin that
   * stood as the record began has evaporated enough to forget what it held.
   */
  private boolean tooEarly(double at) {
    int block = Math.min((int) at, blocks.count - 1);
    double concentrated = plan.aimUsCm()[block] / plan.freshUsCm()[block];
    if (evaporated[block] < FORGOTTEN * plan.volumeL() * concentrated) {
      return true;
    }
    for (int b = (int) at; b >= Math.max(0, (int) at - 120); b--) {
      double refill = plan.drainedL()[b];
      if (refill > 0.05 * plan.volumeL()) {
        double since = evaporated[Math.min((int) at, blocks.count)] - evaporated[b];
        double cycles = plan.aimUsCm()[b] / plan.freshUsCm()[b];
        if (since < 1.2 * refill * (cycles - 1)) {
          return true;
        }
      }
    }
    return false;
  }

  private boolean knownHours(double from, double to) {
    double unknown = 0;
    for (int b = (int) from; b < Math.min(to, blocks.count); b++) {
      unknown += blocks.unknownHours[b];
    }
    return unknown < 0.1 * (to - from) * QuarterDays.HOURS;
  }

  private int grade(double from, double to) {
    int[] count = new int[EvidenceGrade.values().length];
    int last = Math.min(hours.count(), (int) (to * QuarterDays.HOURS));
    for (int h = (int) (from * QuarterDays.HOURS); h < last; h++) {
      count[hours.grade()[h]]++;
    }
    return worstCommon(count);
  }

  /** The grade of most hours; the worse one where hours of load are split evenly. */
  static int worstCommon(int[] count) {
    int best = count.length - 1;
    for (int g = count.length - 1; g >= 0; g--) {
      if (count[g] > count[best]) {
        best = g;
      }
    }
    return best;
  }
}
