package towerledger.balance;

import java.util.ArrayList;
import java.util.Comparator;
import java.util.EnumMap;
import java.util.List;
import java.util.Map;
import towerledger.statistics.NormalMixture;

/** When a month is flagged, and which causes are named. */
final class VerdictRule {

  /**
   * Probability of waste at which a month is flagged as wasteful: a look costs less than what is
   * lost where one is missed. Set on fleets whose truth is known (decisions 0235, 0236 and 0237).
   */
  private static final double WASTE_LIMIT = 0.25;

  /** The same where a controller holds the concentration, and little else strays that far. */
  private static final double WASTE_LIMIT_HELD = 0.13;

  /**
   * The same where the month's own makeup stands out from the expected: what the month shows for
   * itself needs less of the record.
   */
  private static final double WASTE_LIMIT_SEEN = 0.12;

  /** Standard deviations by which the makeup of such a month exceeds the expected. */
  private static final double SEEN = 1.5;

  /** Probability that nothing is wrong above which no month can be flagged. */
  static final double SOUND_ENOUGH = 1 - WASTE_LIMIT_HELD;

  /** Probability of another fault at which a month is flagged. */
  static final double FAULT_LIMIT = 0.9;

  /**
   * Part of the odds, taken with reserve, that the named set of causes holds. Set with the reserve
   * on fleets whose truth is known (decision 0238).
   */
  private static final double SET_PROBABILITY = 0.76;

  /** Power of the odds between causes that is believed. */
  private static final double RESERVE = 0.4;

  private static final int MOST_NAMES = 4;

  /** Least error of the metered heat worth a flag, ln. */
  private static final double LEAST_LOAD_ERROR = 0.18;

  /** The same where electricity or weekly heat tells the load. */
  private static final double LEAST_LOAD_ERROR_B = 0.25;

  /** Least error of the makeup meter worth a flag, ln: twice what a worn meter is allowed. */
  private static final double LEAST_METER_ERROR = 0.11;

  /** The same where the load is a guess: a smaller one cannot be told from a wrong load. */
  private static final double LEAST_METER_ERROR_GUESSED = 0.4;

  /** Least part of the expected makeup that a shut fill valve leaves undrawn in a month. */
  private static final double LEAST_SHORT = 0.15;

  private final ReconciliationPolicy policy;
  private final List<Response> responses;
  private final LossEstimate losses;
  private final double leastAtRestL;

  /**
   * The rule for one system.
   *
   * @param monthL evaporation of a usual month; a hundredth of it is nothing even when little is
   *     drawn
   */
  VerdictRule(
      ReconciliationPolicy policy, List<Response> responses, LossEstimate losses, double monthL) {
    this.leastAtRestL = 0.015 * monthL;
    this.policy = policy;
    this.responses = responses;
    this.losses = losses;
  }

  /**
   * What a month measures a cause's size by.
   *
   * @param makeupL makeup, L
   * @param shortPart part of the expected makeup that was not drawn; negative where more was; NaN
   *     where it is not known yet
   * @param grade grade of its heat evidence
   * @param vague whether the tower may have evaporated far less than modelled
   * @param held whether the bleed follows the concentration or the makeup, not a clock or a hand
   */
  record Measure(
      double makeupL, double shortPart, EvidenceGrade grade, boolean vague, boolean held) {

    /** Probability of waste at which such a month is flagged as wasteful. */
    double limit() {
      return held ? WASTE_LIMIT_HELD : WASTE_LIMIT;
    }
  }

  /**
   * Posterior probability of each cause acting in a month in a size that matters; what is too small
   * to matter counts as none.
   */
  Map<Cause, Double> causes(List<Hypothesis> hypotheses, int month, Measure measure) {
    double[] sums = new double[Cause.values().length];
    double least = leastL(measure.makeupL());
    for (Hypothesis h : hypotheses) {
      Signature signature = responses.get(h.was).signature;
      boolean acts = losses.active(h, month) > 0 && matters(h, signature, month, least, measure);
      sums[(acts ? signature.cause() : Cause.NONE).ordinal()] += h.weight();
    }
    Map<Cause, Double> causes = new EnumMap<>(Cause.class);
    for (Cause cause : Cause.values()) {
      if (sums[cause.ordinal()] > 0) {
        causes.put(cause, sums[cause.ordinal()]);
      }
    }
    return causes;
  }

  private boolean matters(
      Hypothesis h, Signature signature, int month, double leastL, Measure measure) {
    boolean guessed = measure.grade().compareTo(EvidenceGrade.C) >= 0;
    if (signature.drawsWater()) {
      return losses.extra(h, month) >= leastL;
    }
    if (signature.loadFactor() != 1) {
      // A load that is guessed anyway may change without anything being wrong.
      return !guessed
          && !measure.vague()
          && Math.abs(Math.log(signature.loadFactor()))
              >= (measure.grade() == EvidenceGrade.A ? LEAST_LOAD_ERROR : LEAST_LOAD_ERROR_B);
    }
    if (signature.makeupFactor() != 1) {
      double least = guessed ? LEAST_METER_ERROR_GUESSED : LEAST_METER_ERROR;
      boolean shut = signature.cause() == Cause.FILL_VALVE_SHUT;
      return Math.abs(Math.log(signature.makeupFactor())) >= least
          && !(signature.makeupFactor() < 1 && measure.vague())
          && !(shut && measure.shortPart() < LEAST_SHORT);
    }
    return true;
  }

  /** Probability that the extra water of a month is worth a flag. */
  double wasteProbability(List<Hypothesis> hypotheses, int month, double makeupL) {
    double least = leastL(makeupL);
    double sum = 0;
    for (Hypothesis h : hypotheses) {
      if (losses.extra(h, month) >= least) {
        sum += h.weight();
      }
    }
    return sum;
  }

  /** Least extra water worth a flag: the share of makeup, or the office's volume if smaller. */
  double leastL(double makeupL) {
    double byShare = Math.max(policy.leastShare() * makeupL, leastAtRestL);
    return policy.leastLitres().isPresent()
        ? Math.min(byShare, policy.leastLitres().getAsDouble())
        : byShare;
  }

  /**
   * Whether the loss of a month is probable, large enough, and seen in the month's own makeup: what
   * the months before it told is not enough.
   *
   * @param surplus makeup over the expected, in standard deviations of the two
   */
  boolean wastes(
      List<Hypothesis> hypotheses, int month, Measure measure, NormalMixture loss, double surplus) {
    double limit = surplus >= SEEN ? WASTE_LIMIT_SEEN : measure.limit();
    return wasteProbability(hypotheses, month, measure.makeupL()) >= limit
        && loss.mean() >= leastL(measure.makeupL())
        && !contradicted(measure);
  }

  /** Whether a month drew so little that no water can have been wasted in it. */
  private boolean contradicted(Measure measure) {
    double more = -measure.shortPart() / (1 - measure.shortPart()) * measure.makeupL();
    return more < -leastL(measure.makeupL());
  }

  /**
   * Whether something other than waste is wrong: a meter, a probe, a shut valve. Waste adds to it
   * unless the month's own makeup speaks against it.
   */
  boolean faulty(Map<Cause, Double> causes, Measure measure) {
    boolean wasteSpeaks = !contradicted(measure);
    double sum = 0;
    for (Map.Entry<Cause, Double> entry : causes.entrySet()) {
      Cause cause = entry.getKey();
      if (cause != Cause.NONE && (wasteSpeaks || !cause.wastesWater())) {
        sum += entry.getValue();
      }
    }
    return sum >= FAULT_LIMIT;
  }

  /**
   * Whether what is wrong is large enough for a flag: the makeup strays from the expected by at
   * least what a loss must come to. A wrong bleed meter shows in the bleed, not in the makeup.
   *
   * @param moreL makeup over the expected, L
   */
  boolean sized(Cause likeliest, double moreL, Measure measure) {
    return likeliest == Cause.BLOWDOWN_METER_ERROR || Math.abs(moreL) >= leastL(measure.makeupL());
  }

  /** Causes in the order in which they are named: in a flagged month the faults come first. */
  static List<Map.Entry<Cause, Double>> ranked(Map<Cause, Double> causes, boolean flagged) {
    List<Map.Entry<Cause, Double>> ranked = new ArrayList<>(causes.entrySet());
    ranked.sort(
        Comparator.comparing(
                (Map.Entry<Cause, Double> e) -> flagged && e.getKey() == Cause.NONE ? 1 : 0)
            .thenComparing(e -> -e.getValue())
            .thenComparing(e -> e.getKey()));
    return ranked;
  }

  /** Smallest set of causes that together are probable enough. */
  static List<Cause> set(List<Map.Entry<Cause, Double>> ranked, boolean flagged) {
    double all = 0;
    for (Map.Entry<Cause, Double> entry : ranked) {
      all += flagged && entry.getKey() == Cause.NONE ? 0 : tempered(entry);
    }
    List<Cause> set = new ArrayList<>();
    double sum = 0;
    for (Map.Entry<Cause, Double> entry : ranked) {
      if (!set.isEmpty()
          && (sum >= SET_PROBABILITY * all
              || set.size() >= MOST_NAMES
              || (flagged && entry.getKey() == Cause.NONE))) {
        break;
      }
      set.add(entry.getKey());
      sum += tempered(entry);
    }
    return set;
  }

  /** Causes differ by more than the model knows of them: its odds are taken with reserve. */
  private static double tempered(Map.Entry<Cause, Double> entry) {
    return Math.pow(entry.getValue(), RESERVE);
  }
}
