package towerledger.balance;

import java.time.Duration;
import java.time.Instant;
import java.util.ArrayList;
import java.util.Comparator;
import java.util.List;
import org.jspecify.annotations.Nullable;
import towerledger.balance.facts.HeatEvidence;
import towerledger.balance.facts.SystemAttributes;
import towerledger.balance.facts.SystemAttributes.HeatSource;
import towerledger.balance.facts.SystemFacts;

/**
 * Heat evidence spread over its hours by the load shape, its total conserved; better evidence takes
 * the place of worse where they overlap.
 */
final class HeatSpread {

  /** Chiller electricity per cooling where it is not known; common practice, no source. */
  private static final double ASSUMED_KW_PER_TON = 0.65;

  /** Driving heat of an absorption chiller per cooling (COP about 0.9); common practice. */
  private static final double ABSORPTION_DRIVING_HEAT = 1.1;

  private static final double KW_PER_TON = 3.516852842;
  private static final double WATER_J_PER_KG_K = 4186;

  /** Load below which a tower is taken to stand, fraction of nominal. */
  private static final double LEAST_LOAD = 0.003;

  private static final Duration DAY = Duration.ofHours(26);

  /** Memory of how measured load compares with the shape, for hours that nothing tells of. */
  private static final double REMEMBERED_HOURS = 30 * 24;

  private HeatSpread() {}

  /**
   * Writes heat as a fraction of nominal over the guessed shape, hour by hour.
   *
   * @param shape load by shape alone, fraction of nominal; not changed
   * @param free hours in which the chiller may stand though heat is shed
   * @param grade receives the grade of each hour
   * @param even receives each hour's load if the plant ran evenly through what was measured; NaN
   *     where nothing was
   */
  static double[] spread(
      SystemFacts facts,
      Instant start,
      double[] shape,
      double nominalWatts,
      boolean[] free,
      byte[] grade,
      double[] even) {
    java.util.Arrays.fill(even, Double.NaN);
    double[] load = shape.clone();
    java.util.Arrays.fill(grade, (byte) EvidenceGrade.D.ordinal());
    List<HeatEvidence> worstFirst = new ArrayList<>(facts.heat());
    worstFirst.sort(
        Comparator.comparingInt((HeatEvidence e) -> -gradeOf(e).ordinal())
            .thenComparing(e -> e.span().startInclusive()));
    for (HeatEvidence evidence : worstFirst) {
      long from = evidence.span().startInclusive().getEpochSecond() - start.getEpochSecond();
      long to = evidence.span().endExclusive().getEpochSecond() - start.getEpochSecond();
      int first = (int) Math.max(0, Math.round(from / 3600.0));
      int last = (int) Math.min(shape.length, Math.round(to / 3600.0));
      if (last <= first) {
        continue;
      }
      double inside = (last - first) * 3600.0 / Math.max(1, to - from);
      double total =
          joules(facts, evidence, nominalWatts) * Math.min(1, inside) / 3600 / nominalWatts;
      boolean blind = evidence instanceof HeatEvidence.ChillerElectricity;
      byte graded = (byte) gradeOf(evidence).ordinal();
      double sum = 0;
      int seen = 0;
      for (int h = first; h < last; h++) {
        if (!(blind && free[h])) {
          sum += shape[h];
          seen++;
        }
      }
      double counted = 0;
      for (int h = first; h < last; h++) {
        if (!(blind && free[h]) && !standsStill(total, shape[h], sum)) {
          counted += shape[h];
        }
      }
      for (int h = first; h < last; h++) {
        if (blind && free[h]) {
          continue;
        }
        grade[h] = graded;
        if (sum == 0) {
          load[h] = total / seen;
        } else if (counted > 0) {
          load[h] = standsStill(total, shape[h], sum) ? 0 : total * shape[h] / counted;
        } else {
          load[h] = total * shape[h] / sum;
        }
      }
      even(load, first, last, blind ? free : null, even);
    }
    carryOn(load, shape, free, grade, even);
    return load;
  }

  /** Writes the mean load of the hours that run. */
  private static void even(
      double[] load, int first, int last, boolean @Nullable [] unseen, double[] even) {
    double sum = 0;
    int running = 0;
    for (int h = first; h < last; h++) {
      if (load[h] > 0 && (unseen == null || !unseen[h])) {
        sum += load[h];
        running++;
      }
    }
    for (int h = first; h < last; h++) {
      if (unseen == null || !unseen[h]) {
        even[h] = running > 0 ? sum / running : 0;
      }
    }
  }

  /**
   * Scales the shape of hours that nothing tells of by what was measured before them: a gap in the
   * evidence is no other plant. Looks only back.
   */
  private static void carryOn(
      double[] load, double[] shape, boolean[] free, byte[] grade, double[] even) {
    double kept = Math.exp(-1 / REMEMBERED_HOURS);
    double measured = 0;
    double shaped = 0;
    double running = 0;
    for (int h = 0; h < load.length; h++) {
      if (grade[h] < EvidenceGrade.D.ordinal()) {
        measured = measured * kept + load[h];
        shaped = shaped * kept + shape[h];
        running = running * kept + (load[h] > 0 ? 1 : 0);
      } else if (!free[h] && measured > 0 && shaped > 0) {
        load[h] = shape[h] * measured / shaped;
        even[h] = measured / Math.max(1, running);
      }
    }
  }

  /** Whether an hour's share is so little that the tower rather stood; the others carry it. */
  private static boolean standsStill(double total, double shape, double sum) {
    return total * shape < LEAST_LOAD * sum;
  }

  /**
   * Whether a waterside economizer is taken to cool without the chiller: below 5 °C outside; common
   * practice, no source. The chiller's electricity then says nothing of the heat.
   */
  static boolean freeCooling(SystemAttributes attributes, double dryBulbC) {
    return attributes.watersideEconomizer() && dryBulbC < 5;
  }

  static boolean[] freeHours(SystemFacts facts, Instant start, int hours) {
    boolean[] free = new boolean[hours];
    if (facts.attributes().watersideEconomizer()) {
      long offset = (start.getEpochSecond() - facts.weather().start().getEpochSecond()) / 3600;
      for (int h = 0; h < hours; h++) {
        long w = offset + h;
        free[h] =
            w >= 0
                && w < facts.weather().hours()
                && freeCooling(facts.attributes(), facts.weather().dryBulbC((int) w));
      }
    }
    return free;
  }

  static EvidenceGrade gradeOf(HeatEvidence evidence) {
    boolean daily = evidence.span().duration().compareTo(DAY) <= 0;
    if (evidence instanceof HeatEvidence.RunningHours) {
      return EvidenceGrade.C;
    }
    if (evidence instanceof HeatEvidence.ChillerElectricity) {
      return EvidenceGrade.B;
    }
    return daily ? EvidenceGrade.A : EvidenceGrade.B;
  }

  private static double joules(SystemFacts facts, HeatEvidence evidence, double nominalWatts) {
    HeatSource source = facts.attributes().heatSource().orElse(HeatSource.ELECTRIC_CHILLER);
    if (evidence instanceof HeatEvidence.HeatRejected metered) {
      return metered.joules();
    }
    if (evidence instanceof HeatEvidence.ChilledWater cooling) {
      double added =
          source == HeatSource.ABSORPTION_CHILLER
              ? ABSORPTION_DRIVING_HEAT
              : source == HeatSource.ELECTRIC_CHILLER
                      || source == HeatSource.REFRIGERATION
                      || cooling.kwPerTon().isPresent()
                  ? cooling.kwPerTon().orElse(ASSUMED_KW_PER_TON) / KW_PER_TON
                  : 0;
      return cooling.joules() * (1 + added);
    }
    if (evidence instanceof HeatEvidence.ChillerElectricity electricity) {
      return electricity.joules() * (1 + KW_PER_TON / electricity.kwPerTon());
    }
    if (evidence instanceof HeatEvidence.RunningHours running) {
      return running.hours() * 3600 * running.loadFraction() * nominalWatts;
    }
    HeatEvidence.WaterTemperatures water = (HeatEvidence.WaterTemperatures) evidence;
    return water.waterFlowKgPerSecond()
        * WATER_J_PER_KG_K
        * (water.hotC() - water.coldC())
        * water.span().hours()
        * 3600;
  }
}
