package towerledger.balance;

import java.time.Instant;
import java.time.YearMonth;
import java.time.ZoneId;
import java.util.List;
import java.util.Optional;
import java.util.stream.Stream;
import towerledger.balance.facts.HeatEvidence;
import towerledger.balance.facts.MeterFacts;
import towerledger.balance.facts.RegisterVolume;
import towerledger.balance.facts.SystemFacts;
import towerledger.balance.facts.Visit;
import towerledger.balance.facts.WaterSample;
import towerledger.quantity.CalendarMonth;

/** What was known at an instant. */
final class KnownFacts {

  private KnownFacts() {}

  /** Facts up to an instant: spans that had ended, samples and visits that had been made. */
  static SystemFacts by(SystemFacts facts, Instant knownBy) {
    List<HeatEvidence> heat =
        facts.heat().stream().filter(h -> !h.span().endExclusive().isAfter(knownBy)).toList();
    List<MeterFacts> meters =
        facts.meters().stream()
            .map(
                meter ->
                    new MeterFacts(
                        meter.meter(),
                        meter.role(),
                        meter.type(),
                        meter.accuracyFraction(),
                        meter.sizeMm(),
                        meter.parent(),
                        meter.source(),
                        meter.resolutionLitres(),
                        meter.registers().stream()
                            .filter(r -> !r.span().endExclusive().isAfter(knownBy))
                            .toList(),
                        meter.intervals()))
            .toList();
    return new SystemFacts(
        facts.system(),
        facts.zone(),
        facts.attributes(),
        facts.towers(),
        facts.settings(),
        facts.weather(),
        heat,
        meters,
        facts.samples().stream().filter(s -> !s.takenAt().isAfter(knownBy)).toList(),
        facts.pressures().stream().filter(p -> !p.takenAt().isAfter(knownBy)).toList(),
        facts.visits().stream().filter(v -> !v.at().isAfter(knownBy)).toList());
  }

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

  /** Whether a fact that ends after a month's close reaches back into the month's past. */
  static boolean straddle(SystemFacts facts, YearMonth month, Instant close) {
    Instant end = CalendarMonth.of(month, facts.zone()).span().endExclusive();
    for (HeatEvidence heat : facts.heat()) {
      if (heat.span().startInclusive().isBefore(end) && heat.span().endExclusive().isAfter(close)) {
        return true;
      }
    }
    for (MeterFacts meter : facts.meters()) {
      List<RegisterVolume> volumes = meter.registers();
      for (int i = 0; i + 1 < volumes.size(); i++) {
        if (volumes.get(i).estimated()
            && volumes.get(i + 1).estimated()
            && !volumes.get(i).span().endExclusive().isAfter(close)
            && volumes.get(i + 1).span().endExclusive().isAfter(close)) {
          return true;
        }
      }
    }
    return false;
  }
}
