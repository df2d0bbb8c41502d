package towerledger.ledger;

import java.time.Instant;
import java.time.LocalDate;
import java.time.YearMonth;
import java.time.ZoneId;
import java.time.format.DateTimeFormatter;
import java.time.temporal.ChronoUnit;
import java.util.ArrayList;
import java.util.Comparator;
import java.util.List;
import java.util.Locale;
import java.util.Map;
import java.util.Optional;
import java.util.function.Function;
import org.jspecify.annotations.Nullable;
import towerledger.balance.VolumeEstimate;
import towerledger.meter.MeterRecord;
import towerledger.meter.RegisterReading;
import towerledger.quantity.Span;
import towerledger.quantity.Volume;
import towerledger.site.Meter;
import towerledger.site.MeterRole;
import towerledger.tariff.Claim;
import towerledger.tariff.MeterSize;
import towerledger.tariff.RateSchedule;
import towerledger.tariff.SiteUse;
import towerledger.tariff.TowerWater;
import towerledger.tariff.Usage;
import towerledger.tariff.UtilityBill;

/**
 * The water of one bill's days: by meters, where their readings enclose the days, and by the
 * ledger's months, of which each counts by the share of its days that are billed.
 */
final class BilledWater {

  private static final DateTimeFormatter CLOCK = DateTimeFormatter.ofPattern("uuuu-MM-dd HH:mm");

  private final UtilityBill bill;
  private final Span billed;
  private final ZoneId zone;
  private final List<MeterRecord> service;
  private final List<Read> serviceReadings;
  private final Map<String, OfSystem> systems;
  private final List<String> notes = new ArrayList<>();

  /**
   * What is known of one system around the bill.
   *
   * @param meters its meters that count, with what they measured
   * @param readings every reading of them
   * @param months its rows of the ledger that the bill touches
   * @param evaporation evaporated water of those months with its own bounds, where they are kept
   */
  record OfSystem(
      List<MeterRecord> meters,
      List<Read> readings,
      List<LedgerEntry> months,
      Map<YearMonth, VolumeEstimate> evaporation) {}

  /** A reading with its meter. */
  record Read(Meter meter, RegisterReading reading) {}

  BilledWater(
      UtilityBill bill,
      Span billed,
      ZoneId zone,
      List<MeterRecord> service,
      List<Read> serviceReadings,
      Map<String, OfSystem> systems) {
    this.bill = bill;
    this.billed = billed;
    this.zone = zone;
    this.service = service;
    this.serviceReadings = serviceReadings;
    this.systems = systems;
  }

  /** Volume by the service meters; empty when their readings do not enclose the bill. */
  Optional<Volume> metered() {
    return sum(service);
  }

  /** What limits the figures. */
  List<String> notes() {
    return List.copyOf(notes);
  }

  /**
   * The site's use in the bill's days: units of the bill first, else the service meters, else the
   * towers' own makeup.
   */
  SiteUse use(
      UtilityBill of,
      List<RateSchedule> rates,
      @Nullable MeterSize meterSize,
      @Nullable Usage winterAverage) {
    List<TowerWater> towers = new ArrayList<>();
    systems.forEach((code, system) -> towers.add(tower(code, system)));
    Optional<Usage> units =
        Optional.ofNullable(of.units())
            .flatMap(
                counted ->
                    rates.stream()
                        .filter(schedule -> schedule.service() == of.service())
                        .findFirst()
                        .flatMap(schedule -> schedule.findVersion(of.from()))
                        .map(version -> new Usage(counted, version.billingUnit())));
    Optional<Usage> whole = metered().map(Usage::of).or(() -> units);
    double own =
        towers.stream()
            .map(TowerWater::makeup)
            .mapToDouble(makeup -> makeup == null ? 0 : makeup.litres())
            .sum();
    if (whole.isEmpty()) {
      notes.add("the site's whole use is not known; the towers' own makeup stands for it");
    }
    SiteUse use =
        SiteUse.of(of.from(), of.to(), whole.orElse(Usage.of(Volume.ofLitres(own))))
            .withMeterSize(meterSize)
            .withTowers(towers)
            .withReturnMeter(units.orElse(null))
            .withWinterAverage(winterAverage);
    return whole.isPresent() ? use : use.withTowersOwnWaterOnly().withTowers(towers);
  }

  private TowerWater tower(String code, OfSystem system) {
    Optional<Volume> makeup = role(system, MeterRole.MAKEUP);
    Optional<Volume> blowdown = role(system, MeterRole.BLOWDOWN);
    if (has(system, MeterRole.OTHER_USE)) {
      Optional<Volume> other = role(system, MeterRole.OTHER_USE);
      makeup = makeup.flatMap(volume -> other.map(volume::minus));
    }
    if (makeup.isEmpty()) {
      makeup = months(system, BilledWater::towerMakeup);
      if (makeup.isPresent()) {
        notes.add(
            "%s: makeup by the ledger's months, since its readings do not enclose the bill"
                .formatted(code));
      }
    }
    Optional<Volume> modelled = months(system, BilledWater::evaporationAndDrift);
    Optional<Volume> upper = months(system, entry -> upperBound(system, entry));
    return new TowerWater(
        code,
        makeup.map(BilledWater::notNegative).orElse(null),
        blowdown.orElse(null),
        role(system, MeterRole.CREDIT).orElse(null),
        modelled.map(BilledWater::notNegative).orElse(null),
        upper.map(BilledWater::notNegative).orElse(null));
  }

  /** Makeup without what others drew behind the makeup meter. */
  private static @Nullable Double towerMakeup(LedgerEntry entry) {
    Double makeup = entry.water().makeup();
    Double other = entry.water().otherUse();
    return makeup == null ? null : makeup - (other == null ? 0 : other);
  }

  private static @Nullable Double evaporationAndDrift(LedgerEntry entry) {
    Double evaporation = entry.water().evaporation();
    Double drift = entry.water().drift();
    return evaporation == null ? null : evaporation + (drift == null ? 0 : drift);
  }

  /**
   * Evaporation and drift at their upper 95 % bound. Months reckoned before that bound was kept are
   * held to the relative bound of their expected makeup, which is evaporation times C/(C−1).
   */
  private static @Nullable Double upperBound(OfSystem system, LedgerEntry entry) {
    VolumeEstimate evaporation = system.evaporation().get(entry.month());
    Double drift = entry.water().drift();
    if (evaporation != null) {
      return evaporation.high().litres() + (drift == null ? 0 : drift);
    }
    Double best = evaporationAndDrift(entry);
    Double expected = entry.water().expectedMakeup();
    Double high = entry.water().expectedHigh();
    return best == null || expected == null || high == null || expected <= 0
        ? null
        : best * Math.max(1, high / expected);
  }

  private Optional<Volume> role(OfSystem system, MeterRole role) {
    return sum(serving(system, role));
  }

  private boolean has(OfSystem system, MeterRole role) {
    return !serving(system, role).isEmpty();
  }

  private List<MeterRecord> serving(OfSystem system, MeterRole role) {
    return system.meters().stream()
        .filter(record -> record.meter().details().role() == role)
        .filter(record -> served(record.meter()))
        .toList();
  }

  /** Whether a meter was in service in any of the billed days. */
  private boolean served(Meter meter) {
    Instant installed = meter.details().installedAt();
    Instant removed = meter.details().removedAt();
    return (installed == null || installed.isBefore(billed.endExclusive()))
        && (removed == null || removed.isAfter(billed.startInclusive()));
  }

  private Optional<Volume> sum(List<MeterRecord> records) {
    return MeteredWithin.sum(records.stream().map(MeterRecord::facts).toList(), billed);
  }

  private Optional<Volume> months(OfSystem system, Function<LedgerEntry, @Nullable Double> figure) {
    double litres = 0;
    long days = 0;
    for (LedgerEntry entry : system.months()) {
      Double value = figure.apply(entry);
      long part = days(entry.month());
      if (value != null && part > 0) {
        litres += value * part / entry.month().lengthOfMonth();
        days += part;
      }
    }
    return days == ChronoUnit.DAYS.between(bill.from(), bill.to())
        ? Optional.of(Volume.ofLitres(litres))
        : Optional.empty();
  }

  private long days(YearMonth month) {
    LocalDate start = month.atDay(1).isAfter(bill.from()) ? month.atDay(1) : bill.from();
    LocalDate next = month.plusMonths(1).atDay(1);
    return ChronoUnit.DAYS.between(start, next.isBefore(bill.to()) ? next : bill.to());
  }

  /** The readings that enclose the bill, and the cycles and model behind the volumes. */
  List<Claim.Evidence> evidence() {
    List<Claim.Evidence> evidence = new ArrayList<>();
    enclosing(serviceReadings, evidence);
    systems.forEach(
        (code, system) -> {
          enclosing(system.readings(), evidence);
          for (LedgerEntry entry : system.months()) {
            Double cycles = entry.water().cycles();
            Double best = evaporationAndDrift(entry);
            if (cycles != null) {
              evidence.add(
                  new Claim.Evidence(
                      code + ", water samples",
                      String.format(Locale.ROOT, "%.2f cycles of concentration", cycles),
                      entry.month().toString()));
            }
            if (best != null) {
              evidence.add(
                  new Claim.Evidence(
                      code + ", model " + entry.modelVersion(),
                      String.format(
                          Locale.ROOT,
                          "evaporation and drift of %.0f L, heat evidence %s",
                          best,
                          entry.evidence()),
                      entry.month().toString()));
            }
          }
        });
    return evidence;
  }

  private void enclosing(List<Read> readings, List<Claim.Evidence> evidence) {
    readings.stream()
        .map(Read::meter)
        .distinct()
        .forEach(
            meter -> {
              List<RegisterReading> own =
                  readings.stream()
                      .filter(read -> read.meter().equals(meter))
                      .map(Read::reading)
                      .sorted(Comparator.comparing(RegisterReading::readAt))
                      .toList();
              own.stream()
                  .filter(reading -> !reading.readAt().isAfter(billed.startInclusive()))
                  .reduce((one, other) -> other)
                  .ifPresent(reading -> evidence.add(read(meter, reading)));
              own.stream()
                  .filter(reading -> !reading.readAt().isBefore(billed.endExclusive()))
                  .findFirst()
                  .ifPresent(reading -> evidence.add(read(meter, reading)));
            });
  }

  private Claim.Evidence read(Meter meter, RegisterReading reading) {
    return new Claim.Evidence(
        "meter %s (%s)".formatted(meter.code(), meter.details().role().code()),
        "%s × %s %s, %s"
            .formatted(
                reading.register().stripTrailingZeros().toPlainString(),
                meter.details().multiplier().stripTrailingZeros().toPlainString(),
                meter.details().unit(),
                reading.kind().code()),
        CLOCK.format(reading.readAt().atZone(zone)));
  }

  private static Volume notNegative(Volume volume) {
    return volume.litres() < 0 ? Volume.ZERO : volume;
  }
}
