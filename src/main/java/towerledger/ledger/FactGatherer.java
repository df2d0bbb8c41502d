package towerledger.ledger;

import java.time.DayOfWeek;
import java.time.Instant;
import java.time.LocalDate;
import java.time.Month;
import java.time.ZoneId;
import java.time.ZonedDateTime;
import java.util.ArrayList;
import java.util.EnumSet;
import java.util.HashMap;
import java.util.List;
import java.util.Locale;
import java.util.Map;
import java.util.Optional;
import java.util.OptionalDouble;
import java.util.Set;
import java.util.stream.Stream;
import org.jspecify.annotations.Nullable;
import org.springframework.stereotype.Component;
import towerledger.balance.facts.HeatEvidence;
import towerledger.balance.facts.MeterFacts;
import towerledger.balance.facts.OperatingSettings;
import towerledger.balance.facts.SupplyPressure;
import towerledger.balance.facts.SystemAttributes;
import towerledger.balance.facts.SystemFacts;
import towerledger.balance.facts.TowerFacts;
import towerledger.balance.facts.Visit;
import towerledger.balance.facts.WaterSample;
import towerledger.balance.facts.WeatherHours;
import towerledger.logsheet.LogRecords;
import towerledger.meter.MeterRecords;
import towerledger.quantity.Span;
import towerledger.site.CoolingSystem;
import towerledger.site.DatedSettings;
import towerledger.site.Nameplate;
import towerledger.site.SettingName;
import towerledger.site.Settings;
import towerledger.site.Site;
import towerledger.site.Sites;
import towerledger.site.SystemDetails;
import towerledger.site.Tower;
import towerledger.weather.WeatherRecords;

/** Gathers everything known of some systems over a span, in as few queries as there are tables. */
@Component
class FactGatherer {

  /** Circulating tower water weighs about this much at 30 °C (IAPWS: 995.7 kg/m³). */
  private static final double KG_PER_LITRE = 0.996;

  private final Sites sites;
  private final DatedSettings settings;
  private final MeterRecords meterRecords;
  private final LogRecords logRecords;

  FactGatherer(
      Sites sites, DatedSettings settings, MeterRecords meterRecords, LogRecords logRecords) {
    this.sites = sites;
    this.settings = settings;
    this.meterRecords = meterRecords;
    this.logRecords = logRecords;
  }

  /**
   * Facts of the systems of some sites.
   *
   * @param systemsOf systems of each site
   * @param span span over which facts are gathered
   * @param stations stations already read in this piece of work: sites share them, so that a run
   *     over many sites reads each station but once
   * @return facts by system identity; a system without a tower is left out, it has nothing to model
   */
  Map<Long, SystemFacts> gather(
      Map<Site, List<CoolingSystem>> systemsOf, Span span, WeatherRecords.Reading stations) {
    List<Long> ids =
        systemsOf.values().stream().flatMap(List::stream).map(CoolingSystem::id).toList();
    List<Long> siteIds = systemsOf.keySet().stream().map(Site::id).toList();
    var known =
        new Known(
            sites.listTowers(ids),
            settings.list(ids),
            meterRecords.listFacts(ids, sites.listServiceMetersOf(siteIds), span),
            logRecords.listSamples(ids, span),
            logRecords.listPressures(ids, span),
            logRecords.listHeat(ids, span),
            logRecords.listVisits(ids, span));
    Map<Long, SystemFacts> facts = new HashMap<>();
    systemsOf.forEach((site, systems) -> facts.putAll(facts(site, systems, known, span, stations)));
    return facts;
  }

  /** Everything read of some systems, by system. */
  private record Known(
      Map<Long, List<Tower>> towers,
      Map<Long, Settings> settings,
      Map<Long, List<MeterFacts>> meters,
      Map<Long, List<WaterSample>> samples,
      Map<Long, List<SupplyPressure>> pressures,
      Map<Long, List<HeatEvidence>> heat,
      Map<Long, List<Visit>> visits) {

    private static <T> List<T> of(CoolingSystem system, Map<Long, List<T>> facts) {
      return facts.getOrDefault(system.id(), List.of());
    }

    /** When the facts of a system begin. */
    private Stream<Instant> starts(CoolingSystem system) {
      return Stream.of(
              of(system, heat).stream().map(h -> h.span().startInclusive()),
              of(system, samples).stream().map(WaterSample::takenAt),
              of(system, visits).stream().map(Visit::at),
              of(system, meters).stream().flatMap(MonthFacts::starts))
          .flatMap(s -> s);
    }
  }

  private Map<Long, SystemFacts> facts(
      Site site,
      List<CoolingSystem> systems,
      Known known,
      Span span,
      WeatherRecords.Reading stations) {
    ZoneId zone = site.details().zone();
    Stream<Instant> starts = systems.stream().flatMap(known::starts);
    WeatherHours weather = weather(site, fromYearOf(starts, span, zone), stations);
    Map<Long, SystemFacts> facts = new HashMap<>();
    for (CoolingSystem system : systems) {
      List<Tower> own = Known.of(system, known.towers());
      if (own.isEmpty()) {
        continue;
      }
      facts.put(
          system.id(),
          new SystemFacts(
              system.code(),
              zone,
              attributes(system.details()),
              own.stream().map(tower -> tower(tower, zone)).toList(),
              operating(known.settings().getOrDefault(system.id(), Settings.none()), zone),
              weather,
              Known.of(system, known.heat()),
              Known.of(system, known.meters()),
              Known.of(system, known.samples()),
              Known.of(system, known.pressures()),
              Known.of(system, known.visits())));
    }
    return facts;
  }

  /** The part of a span from the year of the earliest fact on; all of it without a fact. */
  private static Span fromYearOf(Stream<Instant> starts, Span span, ZoneId zone) {
    return starts
        .min(Instant::compareTo)
        .map(start -> start.atZone(zone).toLocalDate().withDayOfYear(1).atStartOfDay(zone))
        .map(ZonedDateTime::toInstant)
        .filter(year -> year.isAfter(span.startInclusive()))
        .map(year -> Span.of(year, span.endExclusive()))
        .orElse(span);
  }

  private static WeatherHours weather(Site site, Span span, WeatherRecords.Reading stations) {
    String station = site.details().station();
    if (station == null) {
      return WeatherHours.none();
    }
    return stations.get(station, span, number(site.details().elevationM())).hours();
  }

  private static SystemAttributes attributes(SystemDetails details) {
    return new SystemAttributes(
        SystemAttributes.Kind.valueOf(details.kindOrOpen().name()),
        number(details.systemVolumeL()),
        Optional.ofNullable(details.heatSource())
            .map(source -> SystemAttributes.HeatSource.valueOf(source.name())),
        Boolean.TRUE.equals(details.watersideEconomizer()),
        Optional.ofNullable(details.buildingUse())
            .map(use -> SystemAttributes.BuildingUse.valueOf(use.name())),
        Optional.ofNullable(details.occupiedFrom()),
        Optional.ofNullable(details.occupiedTo()),
        days(details.occupiedDays()),
        months(details.idleMonths()));
  }

  /** Days of a range such as {@code Mon-Fri} or a list such as {@code Mon,Wed}. */
  static Set<DayOfWeek> days(@Nullable String text) {
    Set<DayOfWeek> days = EnumSet.noneOf(DayOfWeek.class);
    for (String part : parts(text)) {
      String[] ends = part.split("-");
      DayOfWeek day = day(ends[0]);
      DayOfWeek last = day(ends[ends.length - 1]);
      days.add(day);
      while (day != last) {
        day = day.plus(1);
        days.add(day);
      }
    }
    return days;
  }

  private static DayOfWeek day(String name) {
    String start = name.strip().toUpperCase(Locale.ROOT);
    for (DayOfWeek day : DayOfWeek.values()) {
      if (start.length() >= 3 && day.name().startsWith(start)) {
        return day;
      }
    }
    throw new IllegalArgumentException(
        "day '%s' is not known; use Mon, Tue, Wed, Thu, Fri, Sat or Sun".formatted(name));
  }

  /** Months of a range such as {@code 12-2} or a list such as {@code 1,2}. */
  static Set<Month> months(@Nullable String text) {
    Set<Month> months = EnumSet.noneOf(Month.class);
    for (String part : parts(text)) {
      String[] ends = part.split("-");
      Month month = Month.of(Integer.parseInt(ends[0].strip()));
      Month last = Month.of(Integer.parseInt(ends[ends.length - 1].strip()));
      months.add(month);
      while (month != last) {
        month = month.plus(1);
        months.add(month);
      }
    }
    return months;
  }

  private static List<String> parts(@Nullable String text) {
    return text == null || text.isBlank() ? List.of() : List.of(text.split("[,;]"));
  }

  private static TowerFacts tower(Tower tower, ZoneId zone) {
    Nameplate plate = tower.nameplate();
    Double flow = plate.designWaterFlowLS();
    Double fan = plate.fanMotorKw();
    LocalDate started = plate.startedOn();
    return new TowerFacts(
        tower.code(),
        plate.cells() == null ? 1 : plate.cells(),
        Optional.ofNullable(plate.flowArrangement())
            .map(a -> TowerFacts.FlowArrangement.valueOf(a.name())),
        plate.nominalKw() * 1000,
        flow == null ? OptionalDouble.empty() : OptionalDouble.of(flow * KG_PER_LITRE),
        number(plate.designHotWaterC()),
        number(plate.designColdWaterC()),
        number(plate.designWetBulbC()),
        number(plate.designDryBulbC()),
        number(plate.designAirFlowM3S()),
        fan == null ? OptionalDouble.empty() : OptionalDouble.of(fan * 1000),
        Optional.ofNullable(plate.fanControl()).map(c -> TowerFacts.FanControl.valueOf(c.name())),
        number(plate.basinVolumeL()),
        Optional.ofNullable(started).map(day -> day.atStartOfDay(zone).toInstant()));
  }

  private static List<OperatingSettings> operating(Settings settings, ZoneId zone) {
    List<OperatingSettings> sets = new ArrayList<>();
    for (LocalDate day : settings.changeDays()) {
      Instant from = day.atStartOfDay(zone).toInstant();
      sets.add(
          new OperatingSettings(
              from,
              settings.findNumber(SettingName.COLD_WATER_SETPOINT, day),
              settings.findNumber(SettingName.TARGET_CYCLES, day),
              settings.findNumber(SettingName.CONDUCTIVITY_SETPOINT, day),
              settings
                  .find(SettingName.BLOWDOWN_CONTROL, day)
                  .map(code -> OperatingSettings.BlowdownControl.valueOf(constant(code))),
              scaled(settings.findNumber(SettingName.DRIFT_PERCENT, day), 0.01),
              settings
                  .find(SettingName.LEVEL_CONTROL, day)
                  .map(code -> OperatingSettings.LevelControl.valueOf(constant(code))),
              settings.find(SettingName.LEVEL_SENSOR_OUTSIDE, day).map(Boolean::parseBoolean),
              scaled(settings.findNumber(SettingName.MAKEUP_LINE, day), 0.001),
              settings.findNumber(SettingName.FILL_VALVE_KV, day),
              scaled(settings.findNumber(SettingName.FILL_VALVE_MAX_PRESSURE, day), 1000),
              scaled(settings.findNumber(SettingName.REGULATOR_SET_PRESSURE, day), 1000)));
    }
    return sets;
  }

  private static String constant(String code) {
    return code.toUpperCase(Locale.ROOT).replace('-', '_');
  }

  private static OptionalDouble number(@Nullable Double value) {
    return value == null ? OptionalDouble.empty() : OptionalDouble.of(value);
  }

  private static OptionalDouble scaled(OptionalDouble value, double factor) {
    return value.isEmpty() ? value : OptionalDouble.of(value.getAsDouble() * factor);
  }
}
