package towerledger.meter;

import java.time.Instant;
import java.util.ArrayList;
import java.util.Comparator;
import java.util.List;
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
  private static final int LONGEST_INTERVAL_MINUTES = 1440;

  private static final double MOST_FRACTION = 0.5;

  public MeterRecord {
    compared = List.copyOf(compared);
    remarks = List.copyOf(remarks);
  }

  /** Puts together what was read of one meter. */
  static MeterRecord of(Meter meter, List<RegisterReading> readings, IntervalLog log) {
    MeasuredRegister register = RegisterArithmetic.measure(Register.of(meter), readings);
    IntervalLog.Tidy tidy = log.tidy();
    List<KindsCompared> compared =
        tidy.volumes().size() == 0
            ? List.of()
            : KindsCompared.of(register.volumes(), tidy.volumes(), register.resolutionLitres());
    var remarks = new ArrayList<Remark>(register.remarks());
    remarks.addAll(tidy.remarks());
    compared.stream()
        .filter(KindsCompared::disagree)
        .map(c -> c.remark(meter.code()))
        .forEach(remarks::add);
    remarks.sort(Comparator.comparing(Remark::at));
    return new MeterRecord(
        meter,
        register,
        tidy.volumes(),
        compared,
        tidy.volumes().size() == 0
            ? OptionalDouble.empty()
            : MeterAccuracy.of(meter.details()).mostUncountedLitres(tidy.volumes()),
        remarks);
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
