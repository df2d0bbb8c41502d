package towerledger.ledger;

import java.time.Instant;
import java.util.List;
import java.util.Optional;
import towerledger.balance.facts.IntervalVolumes;
import towerledger.balance.facts.MeterFacts;
import towerledger.balance.facts.RegisterVolume;
import towerledger.quantity.Span;
import towerledger.quantity.Volume;

/** What a meter measured within a span, by time: what a bill or a claim is held against. */
final class MeteredWithin {

  /** A span counts as covered when no more than this share of it is missing. */
  private static final double COVERED = 0.999;

  private MeteredWithin() {}

  /**
   * All of some meters together; empty without any, or where one that served leaves the span open.
   */
  static Optional<Volume> sum(List<MeterFacts> meters, Span span) {
    double litres = 0;
    boolean any = false;
    for (MeterFacts meter : meters) {
      if (meter.removedAt().filter(at -> !at.isAfter(span.startInclusive())).isPresent()) {
        continue;
      }
      Optional<Volume> volume = of(meter, span);
      if (volume.isEmpty()) {
        return Optional.empty();
      }
      litres += volume.get().litres();
      any = true;
    }
    return any ? Optional.of(Volume.ofLitres(litres)) : Optional.empty();
  }

  /** By its readings; by its intervals where the readings leave the span open; else empty. */
  static Optional<Volume> of(MeterFacts meter, Span span) {
    return byReadings(meter, span).or(() -> byIntervals(meter.intervals(), span));
  }

  /**
   * Volume of a register within a span; empty unless the readings enclose the span. What passed
   * between two readings of which one lies outside is shared out as the meter's intervals show it,
   * where they enclose both readings; evenly otherwise.
   */
  private static Optional<Volume> byReadings(MeterFacts meter, Span span) {
    double litres = 0;
    double hours = 0;
    for (RegisterVolume volume : meter.registers()) {
      Instant start = later(volume.span().startInclusive(), span.startInclusive());
      Instant end = earlier(volume.span().endExclusive(), span.endExclusive());
      if (end.isAfter(start)) {
        Span part = Span.of(start, end);
        hours += part.hours();
        litres += volume.litres() * share(meter.intervals(), part, volume.span());
      }
    }
    return hours >= COVERED * span.hours()
        ? Optional.of(Volume.ofLitres(litres))
        : Optional.empty();
  }

  /** Which share of a register's volume passed in a part of its span. */
  private static double share(IntervalVolumes intervals, Span part, Span whole) {
    if (part.equals(whole)) {
      return 1;
    }
    double all = byIntervals(intervals, whole).map(Volume::litres).orElse(0.0);
    return all > 0
        ? byIntervals(intervals, part).map(Volume::litres).orElse(0.0) / all
        : part.hours() / whole.hours();
  }

  private static Optional<Volume> byIntervals(IntervalVolumes intervals, Span span) {
    long from = span.startInclusive().getEpochSecond();
    long to = span.endExclusive().getEpochSecond();
    double litres = 0;
    long seconds = 0;
    for (int i = 0; i < intervals.size(); i++) {
      long start = intervals.startEpochSecond(i);
      long end = start + 60L * intervals.minutes(i);
      long inside = Math.min(end, to) - Math.max(start, from);
      if (inside > 0) {
        litres += intervals.litres(i) * inside / (end - start);
        seconds += inside;
      }
    }
    return seconds >= COVERED * (to - from)
        ? Optional.of(Volume.ofLitres(litres))
        : Optional.empty();
  }

  private static Instant later(Instant a, Instant b) {
    return a.isAfter(b) ? a : b;
  }

  private static Instant earlier(Instant a, Instant b) {
    return a.isBefore(b) ? a : b;
  }
}
