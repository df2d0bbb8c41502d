package towerledger.meter;

import java.util.ArrayList;
import java.util.List;
import java.util.OptionalDouble;
import towerledger.balance.facts.IntervalVolumes;
import towerledger.balance.facts.RegisterVolume;

/**
 * Register readings against interval volumes of the same meter: where both tell of one span, they
 * should agree.
 *
 * @param register the volume between two readings
 * @param intervalLitres sum of the intervals within; those cut by a reading count by their share
 * @param coveredShare share of the span that intervals cover, 0–1
 * @param allowedLitres how far the two may differ before it is worth a remark
 */
public record KindsCompared(
    RegisterVolume register, double intervalLitres, double coveredShare, double allowedLitres) {

  /** Two per cent of the volume is let pass (common practice, no source). */
  private static final double ALLOWED_SHARE = 0.02;

  /** A span counts as covered when at most this share of it is missing. */
  private static final double MAY_MISS = 0.001;

  /** Whether the intervals cover the span, so that the two can be compared at all. */
  public boolean comparable() {
    return coveredShare >= 1 - MAY_MISS;
  }

  /** Whether the two contradict each other. */
  public boolean disagree() {
    return comparable() && Math.abs(intervalLitres - register.litres()) > allowedLitres;
  }

  /** The disagreement in words. */
  Remark remark(String meter) {
    return new Remark(
        Remark.Kind.KINDS_DISAGREE,
        register.span().startInclusive(),
        "meter %s: the readings from %s to %s tell of %.0f L, the interval volumes of %.0f L; up to %.0f L apart would be usual. Look for lost or doubled pulses and for a wrong multiplier"
            .formatted(
                meter,
                register.span().startInclusive(),
                register.span().endExclusive(),
                register.litres(),
                intervalLitres,
                allowedLitres));
  }

  /**
   * Compares every span between readings with the intervals inside it. Two steps of the register,
   * two per cent, and the mean flow over the doubt about the two instants are let pass.
   */
  static List<KindsCompared> of(
      List<RegisterVolume> registers, IntervalVolumes intervals, OptionalDouble resolutionLitres) {
    var compared = new ArrayList<KindsCompared>();
    int first = 0;
    for (RegisterVolume register : registers) {
      long from = register.span().startInclusive().getEpochSecond();
      long to = register.span().endExclusive().getEpochSecond();
      while (first < intervals.size() && end(intervals, first) <= from) {
        first++;
      }
      double sum = 0;
      long coveredSeconds = 0;
      for (int i = first; i < intervals.size() && intervals.startEpochSecond(i) < to; i++) {
        long inside =
            Math.min(end(intervals, i), to) - Math.max(intervals.startEpochSecond(i), from);
        sum += intervals.litres(i) * inside / (60.0 * intervals.minutes(i));
        coveredSeconds += inside;
      }
      double doubtShare =
          register.startWithin().plus(register.endWithin()).toSeconds() / (double) (to - from);
      double allowed =
          register.litres() * (ALLOWED_SHARE + doubtShare) + 2 * resolutionLitres.orElse(0);
      compared.add(
          new KindsCompared(register, sum, coveredSeconds / (double) (to - from), allowed));
    }
    return compared;
  }

  private static long end(IntervalVolumes intervals, int i) {
    return intervals.startEpochSecond(i) + 60L * intervals.minutes(i);
  }
}
