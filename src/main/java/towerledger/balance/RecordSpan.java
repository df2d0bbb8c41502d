package towerledger.balance;

import java.time.Duration;
import java.time.Instant;
import java.time.YearMonth;
import java.time.ZoneId;
import java.util.Optional;
import java.util.stream.Stream;
import towerledger.balance.facts.HeatEvidence;
import towerledger.balance.facts.RegisterVolume;
import towerledger.balance.facts.SystemFacts;
import towerledger.balance.facts.Visit;
import towerledger.balance.facts.WaterSample;
import towerledger.quantity.CalendarMonth;
import towerledger.quantity.Span;

/** Where a system's record begins and ends. */
final class RecordSpan {

  private static final Duration LONGEST_TAIL = Duration.ofDays(62);

  private RecordSpan() {}

  /** First month that any measurement speaks of. */
  static Optional<YearMonth> firstMonth(SystemFacts facts) {
    ZoneId zone = facts.zone();
    Stream<Instant> readings =
        facts.meters().stream()
            .flatMap(
                meter ->
                    Stream.concat(
                        meter.registers().stream()
                            .filter(RegisterVolume::shareable)
                            .map(r -> r.span().startInclusive())
                            .limit(1),
                        meter.intervals().size() > 0
                            ? Stream.of(
                                Instant.ofEpochSecond(meter.intervals().startEpochSecond(0)))
                            : Stream.empty()));
    Stream<Instant> samples = facts.samples().stream().map(WaterSample::takenAt).limit(1);
    Stream<Instant> visits = facts.visits().stream().map(Visit::at).limit(1);
    Stream<Instant> heat = facts.heat().stream().map(h -> h.span().startInclusive()).limit(1);
    return Stream.of(readings, samples, visits, heat)
        .flatMap(s -> s)
        .min(Instant::compareTo)
        .map(at -> CalendarMonth.containing(at, zone).month());
  }

  /**
   * Where a month's own facts end: with the last reading or heat span that begins in it, at most
   * two months after it. A reading taken late speaks of the month that it encloses.
   */
  static Instant end(SystemFacts facts, YearMonth month) {
    Instant end = CalendarMonth.of(month, facts.zone()).span().endExclusive();
    Instant latest = end;
    Stream<Span> spans =
        Stream.concat(
            facts.heat().stream().map(HeatEvidence::span),
            facts.meters().stream()
                .flatMap(meter -> meter.registers().stream())
                .filter(RegisterVolume::shareable)
                .map(RegisterVolume::span));
    for (Span span : (Iterable<Span>) spans::iterator) {
      if (span.startInclusive().isBefore(end) && span.endExclusive().isAfter(latest)) {
        latest = span.endExclusive();
      }
    }
    Instant limit = end.plus(LONGEST_TAIL);
    return latest.isAfter(limit) ? limit : latest;
  }
}
