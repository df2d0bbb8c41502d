package towerledger.meter;

import java.time.Instant;
import java.util.ArrayList;
import java.util.Comparator;
import java.util.List;
import java.util.Locale;
import java.util.Optional;
import java.util.OptionalDouble;
import towerledger.balance.facts.IntervalVolumes;
import towerledger.balance.facts.MeterFacts;
import towerledger.balance.facts.RegisterVolume;
import towerledger.quantity.Span;
import towerledger.site.Meter;
import towerledger.site.MeterDetails;

/**
 * All that one meter measured over a span, by both kinds of record, and what there is to say.
 *
 * @param meter the meter
 * @param register volumes between readings
 * @param intervals volumes by the interval, in order and without overlap
 * @param compared the two kinds against each other, where readings and intervals both exist
 * @param uncountedLitres the most water that may have passed below the meter's least flow, by the
 *     intervals; empty without intervals or known size
 * @param remarks everything worth knowing, in order of time
 */
public record MeterRecord(
    Meter meter,
    MeasuredRegister register,
    IntervalVolumes intervals,
    List<KindsCompared> compared,
    OptionalDouble uncountedLitres,
    List<Remark> remarks) {

  /** Longer intervals than a day are volumes between two instants, like those of a register. */
  static final int LONGEST_INTERVAL_MINUTES = 1440;

  private static final double SAID_FROM = 0.01;

  private static final double MOST_FRACTION = 0.5;

  public MeterRecord {
    compared = List.copyOf(compared);
    remarks = List.copyOf(remarks);
  }

  /** Puts together what was read of one meter. */
  static MeterRecord of(Meter meter, List<RegisterReading> readings, IntervalLog log) {
    MeasuredRegister register = RegisterArithmetic.measure(Register.of(meter), readings);
    var outside = new ArrayList<Remark>();
    IntervalLog.Tidy tidy = inLife(meter, log.tidy(), outside);
    List<KindsCompared> compared =
        tidy.volumes().size() == 0
            ? List.of()
            : KindsCompared.of(register.volumes(), tidy.volumes(), register.resolutionLitres());
    var remarks = new ArrayList<Remark>(register.remarks());
    remarks.addAll(tidy.remarks());
    remarks.addAll(outside);
    compared.stream()
        .filter(KindsCompared::disagree)
        .map(c -> c.remark(meter.code()))
        .forEach(remarks::add);
    OptionalDouble uncounted =
        tidy.volumes().size() == 0
            ? OptionalDouble.empty()
            : MeterAccuracy.of(meter.details()).mostUncountedLitres(tidy.volumes());
    lowFlow(meter, tidy.volumes(), uncounted).ifPresent(remarks::add);
    remarks.sort(Comparator.comparing(Remark::at));
    return new MeterRecord(meter, register, tidy.volumes(), compared, uncounted, remarks);
  }

  /** Intervals in order, without overlap and within the meter's life. */
  static IntervalVolumes hours(Meter meter, IntervalLog log) {
    return inLife(meter, log.tidy(), new ArrayList<>()).volumes();
  }

  /** What may have passed uncounted, said where it is more than a hundredth of what was counted. */
  private static Optional<Remark> lowFlow(
      Meter meter, IntervalVolumes volumes, OptionalDouble uncounted) {
    double counted = 0;
    for (int i = 0; i < volumes.size(); i++) {
      counted += volumes.litres(i);
    }
    if (uncounted.isEmpty() || uncounted.getAsDouble() <= SAID_FROM * counted) {
      return Optional.empty();
    }
    double most = uncounted.getAsDouble();
    return Optional.of(
        new Remark(
            Remark.Kind.LOW_FLOW,
            Instant.ofEpochSecond(volumes.startEpochSecond(0)),
            String.format(
                Locale.ROOT,
                "beside the %.0f L counted by the interval up to %.0f L may have passed meter %s below the least flow it counts rightly (standard uncertainty %.0f L); a smaller or electronic meter would tell",
                counted,
                most,
                meter.code(),
                most / Math.sqrt(12))));
  }

  /** Without intervals of a time in which the meter did not count. */
  private static IntervalLog.Tidy inLife(Meter meter, IntervalLog.Tidy all, List<Remark> remarks) {
    Instant installed = meter.details().installedAt();
    Instant removed = meter.details().removedAt();
    long from = installed == null ? Long.MIN_VALUE : installed.getEpochSecond();
    long to = removed == null ? Long.MAX_VALUE : removed.getEpochSecond();
    IntervalVolumes volumes = all.volumes();
    int last = volumes.size() - 1;
    if (last < 0
        || (volumes.startEpochSecond(0) + 60L * volumes.minutes(0) > from
            && volumes.startEpochSecond(last) < to)) {
      return all;
    }
    var kept = new IntervalLog();
    long first = 0;
    int left = 0;
    for (int i = 0; i < volumes.size(); i++) {
      long start = volumes.startEpochSecond(i);
      if (start >= to || start + 60L * volumes.minutes(i) <= from) {
        first = left++ == 0 ? start : first;
      } else {
        kept.add(start, volumes.minutes(i), volumes.litres(i));
      }
    }
    Instant at = Instant.ofEpochSecond(first);
    remarks.add(
        new Remark(
            Remark.Kind.OUTSIDE_LIFE,
            at,
            "%d interval volumes from %s on lie outside the time in which meter %s counted; left out. Correct installed_at or removed_at, or name the meter that took its place"
                .formatted(left, at, meter.code())));
    return new IntervalLog.Tidy(kept.tidy().volumes(), all.remarks());
  }

  /** The plain values that a reconciliation takes in. */
  public MeterFacts facts() {
    MeterDetails details = meter.details();
    Double size = details.sizeMm();
    var registers = new ArrayList<RegisterVolume>(register.volumes());
    IntervalVolumes fine = intervals;
    if (hasLongIntervals()) {
      fine = splitLongIntervals(registers);
    }
    return new MeterFacts(
        meter.code(),
        MeterFacts.Role.valueOf(details.role().name()),
        Optional.ofNullable(details.type()).map(t -> MeterFacts.Type.valueOf(t.name())),
        usable(MeterAccuracy.of(details).fraction()),
        size == null || size <= 0 ? OptionalDouble.empty() : OptionalDouble.of(size),
        Optional.ofNullable(details.removedAt()),
        Optional.ofNullable(details.source()).map(s -> MeterFacts.Source.valueOf(s.name())),
        register.resolutionLitres(),
        registers,
        fine);
  }

  /** A reconciliation takes no limit of error above half the volume. */
  private static OptionalDouble usable(OptionalDouble fraction) {
    return fraction.isPresent()
        ? OptionalDouble.of(Math.min(fraction.getAsDouble(), MOST_FRACTION))
        : fraction;
  }

  private boolean hasLongIntervals() {
    for (int i = 0; i < intervals.size(); i++) {
      if (intervals.minutes(i) > LONGEST_INTERVAL_MINUTES) {
        return true;
      }
    }
    return false;
  }

  /** Hands intervals of more than a day over as volumes between readings, where none overlap. */
  private IntervalVolumes splitLongIntervals(List<RegisterVolume> registers) {
    var rest = new IntervalLog();
    var measured = List.copyOf(registers);
    for (int i = 0; i < intervals.size(); i++) {
      if (intervals.minutes(i) <= LONGEST_INTERVAL_MINUTES) {
        rest.add(intervals.startEpochSecond(i), intervals.minutes(i), intervals.litres(i));
        continue;
      }
      var from = Instant.ofEpochSecond(intervals.startEpochSecond(i));
      Span span = Span.of(from, from.plusSeconds(60L * intervals.minutes(i)));
      if (measured.stream().noneMatch(volume -> volume.span().overlaps(span))) {
        registers.add(RegisterVolume.read(span, intervals.litres(i)));
      }
    }
    return rest.tidy().volumes();
  }
}
