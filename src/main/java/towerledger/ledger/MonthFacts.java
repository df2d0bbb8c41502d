package towerledger.ledger;

import java.time.Duration;
import java.time.Instant;
import java.time.YearMonth;
import java.util.Optional;
import java.util.stream.Stream;
import towerledger.balance.facts.IntervalVolumes;
import towerledger.balance.facts.MeterFacts;
import towerledger.balance.facts.RegisterVolume;
import towerledger.balance.facts.SystemFacts;
import towerledger.balance.facts.WeatherHours;
import towerledger.quantity.CalendarMonth;

/** Which months a system's facts tell of. */
final class MonthFacts {

  /** A month begins to be reckoned once this much of it is on record. */
  private static final Duration LEAST_RECORD = Duration.ofDays(5);

  private MonthFacts() {}

  /**
   * First month with a fact of the system's own, else with weather.
   *
   * @return empty when there are no facts at all
   */
  static Optional<YearMonth> findFirst(SystemFacts facts) {
    Optional<Instant> own =
        Stream.of(
                facts.heat().stream().map(h -> h.span().startInclusive()),
                facts.samples().stream().map(s -> s.takenAt()),
                facts.meters().stream().flatMap(MonthFacts::starts))
            .flatMap(s -> s)
            .min(Instant::compareTo);
    return own.or(() -> weatherStart(facts.weather()))
        .map(instant -> CalendarMonth.containing(instant, facts.zone()).month());
  }

  /** Last month of which five days are on record. */
  static Optional<YearMonth> findLast(SystemFacts facts, Instant now) {
    return Stream.of(
            facts.heat().stream().map(h -> h.span().endExclusive()),
            facts.samples().stream().map(s -> s.takenAt()),
            weatherEnd(facts.weather()).stream(),
            facts.meters().stream().flatMap(MonthFacts::ends))
        .flatMap(s -> s)
        .max(Instant::compareTo)
        .map(latest -> latest.isAfter(now) ? now : latest)
        .map(latest -> CalendarMonth.containing(latest.minus(LEAST_RECORD), facts.zone()).month());
  }

  /** When what a meter measured begins: each register volume, and the first interval. */
  static Stream<Instant> starts(MeterFacts meter) {
    IntervalVolumes intervals = meter.intervals();
    Stream<Instant> registers =
        meter.registers().stream()
            .filter(RegisterVolume::shareable)
            .map(r -> r.span().startInclusive());
    return intervals.size() == 0
        ? registers
        : Stream.concat(registers, Stream.of(Instant.ofEpochSecond(intervals.startEpochSecond(0))));
  }

  private static Stream<Instant> ends(MeterFacts meter) {
    IntervalVolumes intervals = meter.intervals();
    Stream<Instant> registers = meter.registers().stream().map(r -> r.span().endExclusive());
    return intervals.size() == 0
        ? registers
        : Stream.concat(
            registers,
            Stream.of(Instant.ofEpochSecond(intervals.startEpochSecond(intervals.size() - 1))));
  }

  private static Optional<Instant> weatherStart(WeatherHours weather) {
    for (int hour = 0; hour < weather.hours(); hour++) {
      if (!Double.isNaN(weather.dryBulbC(hour))) {
        return Optional.of(weather.start().plusSeconds(3600L * hour));
      }
    }
    return Optional.empty();
  }

  private static Optional<Instant> weatherEnd(WeatherHours weather) {
    for (int hour = weather.hours() - 1; hour >= 0; hour--) {
      if (!Double.isNaN(weather.dryBulbC(hour)) && !weather.filled(hour)) {
        return Optional.of(weather.start().plusSeconds(3600L * (hour + 1)));
      }
    }
    return Optional.empty();
  }
}
