package towerledger.simulation.fleet;

import java.time.DayOfWeek;
import java.time.Duration;
import java.time.Instant;
import java.time.LocalDate;
import java.time.LocalTime;
import java.time.Month;
import java.time.ZoneId;
import java.util.ArrayList;
import java.util.Comparator;
import java.util.EnumSet;
import java.util.List;
import java.util.Locale;
import java.util.Optional;
import java.util.OptionalDouble;
import java.util.Set;
import java.util.stream.Collectors;
import org.jspecify.annotations.Nullable;
import towerledger.balance.facts.HeatEvidence;
import towerledger.balance.facts.IntervalVolumes;
import towerledger.balance.facts.MeterFacts;
import towerledger.balance.facts.OperatingSettings;
import towerledger.balance.facts.RegisterVolume;
import towerledger.balance.facts.SupplyPressure;
import towerledger.balance.facts.SystemAttributes;
import towerledger.balance.facts.SystemFacts;
import towerledger.balance.facts.TowerFacts;
import towerledger.balance.facts.Visit;
import towerledger.balance.facts.WaterSample;
import towerledger.balance.facts.WeatherHours;
import towerledger.quantity.Pressure;
import towerledger.quantity.Span;
import towerledger.quantity.Units;
import towerledger.quantity.VolumeUnit;
import towerledger.simulation.LoadPattern.Use;
import towerledger.simulation.Observations;
import towerledger.simulation.Observations.Heat;
import towerledger.simulation.Observations.Interval;
import towerledger.simulation.Observations.Meter;
import towerledger.simulation.Observations.Reading;
import towerledger.simulation.PlantSpec;

/** Turns what was observed and told of a simulated plant into the facts that the ledger judges. */
final class FactsOf {

  private final PlantSpec spec;
  private final Told told;
  private final Observations seen;
  private final ZoneId zone;
  private final LocalDate from;

  private FactsOf(PlantSpec spec, Told told, Observations seen, ZoneId zone, LocalDate from) {
    this.spec = spec;
    this.told = told;
    this.seen = seen;
    this.zone = zone;
    this.from = from;
  }

  static SystemFacts plant(
      PlantSpec spec,
      Told told,
      Observations seen,
      WeatherHours weather,
      ZoneId zone,
      LocalDate from) {
    FactsOf facts = new FactsOf(spec, told, seen, zone, from);
    return new SystemFacts(
        spec.name(),
        zone,
        facts.attributes(),
        List.of(facts.tower()),
        facts.settings(),
        weather,
        facts.heat(),
        facts.meters(),
        facts.samples(),
        facts.pressures(),
        facts.visits());
  }

  private SystemAttributes attributes() {
    Use use = spec.load().use();
    boolean known = told.schedule();
    Set<DayOfWeek> days = EnumSet.noneOf(DayOfWeek.class);
    LocalTime[] hours = {null, null};
    if (known) {
      switch (use) {
        case OFFICE, SCHOOL -> {
          days.addAll(EnumSet.range(DayOfWeek.MONDAY, DayOfWeek.FRIDAY));
          hours = new LocalTime[] {LocalTime.of(6, 0), LocalTime.of(18, 0)};
        }
        case RETAIL -> {
          days.addAll(EnumSet.allOf(DayOfWeek.class));
          hours = new LocalTime[] {LocalTime.of(9, 0), LocalTime.of(22, 0)};
        }
        case TWO_SHIFTS -> {
          days.addAll(EnumSet.range(DayOfWeek.MONDAY, DayOfWeek.SATURDAY));
          hours = new LocalTime[] {LocalTime.of(6, 0), LocalTime.of(22, 0)};
        }
        default -> days.addAll(EnumSet.allOf(DayOfWeek.class));
      }
    }
    Set<Month> idle = EnumSet.noneOf(Month.class);
    for (Month month : Month.values()) {
      if (spec.basin().idle(month.getValue())) {
        idle.add(month);
      }
    }
    return new SystemAttributes(
        spec.rating().kind() == PlantSpec.Kind.OPEN
            ? SystemAttributes.Kind.OPEN
            : SystemAttributes.Kind.CLOSED_CIRCUIT,
        OptionalDouble.of(spec.basin().volumeL()),
        Optional.of(
            spec.load().chiller()
                ? SystemAttributes.HeatSource.ELECTRIC_CHILLER
                : SystemAttributes.HeatSource.PROCESS),
        spec.rating().economizer(),
        known ? Optional.of(buildingUse(use)) : Optional.empty(),
        Optional.ofNullable(hours[0]),
        Optional.ofNullable(hours[1]),
        days,
        idle);
  }

  private static SystemAttributes.BuildingUse buildingUse(Use use) {
    return switch (use) {
      case OFFICE -> SystemAttributes.BuildingUse.OFFICE;
      case SCHOOL -> SystemAttributes.BuildingUse.SCHOOL;
      case HOSPITAL -> SystemAttributes.BuildingUse.HOSPITAL;
      case HOTEL -> SystemAttributes.BuildingUse.HOTEL;
      case LABORATORY -> SystemAttributes.BuildingUse.LABORATORY;
      case RETAIL -> SystemAttributes.BuildingUse.RETAIL;
      case DATA_CENTER -> SystemAttributes.BuildingUse.DATA_CENTER;
      case TWO_SHIFTS, THREE_SHIFTS -> SystemAttributes.BuildingUse.INDUSTRIAL;
    };
  }

  private TowerFacts tower() {
    PlantSpec.Rating r = spec.rating();
    return new TowerFacts(
        spec.name() + "-T",
        1,
        Optional.empty(),
        r.nominalTons() * Units.WATTS_PER_TOWER_TON,
        OptionalDouble.of(r.waterKgS()),
        when(told.designPoint(), r.hotC()),
        when(told.designPoint(), r.coldC()),
        when(told.designPoint(), r.wetBulbC()),
        when(told.designPoint(), r.dryBulbC()),
        when(told.airFlow(), r.waterKgS() / r.liquidToGas() * 0.90),
        OptionalDouble.empty(),
        told.fanControl() ? Optional.of(TowerFacts.FanControl.VARIABLE_SPEED) : Optional.empty(),
        OptionalDouble.empty(),
        Optional.empty());
  }

  private static OptionalDouble when(boolean known, double value) {
    return known ? OptionalDouble.of(value) : OptionalDouble.empty();
  }

  private List<OperatingSettings> settings() {
    PlantSpec.Bleed bleed = spec.bleed();
    boolean controlled = bleed.mode() == PlantSpec.BleedMode.CONDUCTIVITY;
    List<OperatingSettings> settings = new ArrayList<>();
    for (Told.BleedFactor change : told.bleedFactors()) {
      LocalDate day = change.from().isBefore(from) ? from : change.from();
      settings.add(
          new OperatingSettings(
              day.atStartOfDay(zone).toInstant(),
              when(told.coldSetpoint(), spec.rating().setpointC()),
              OptionalDouble.of(bleed.targetCycles() * change.factor()),
              when(controlled, bleed.setpointUsCm() * change.factor()),
              Optional.of(OperatingSettings.BlowdownControl.valueOf(bleed.mode().name())),
              when(told.drift(), spec.rating().driftPart()),
              Optional.of(
                  OperatingSettings.LevelControl.valueOf(
                      spec.fill().levelControl().replace('-', '_').toUpperCase(Locale.ROOT))),
              Optional.of(false),
              OptionalDouble.of(spec.fill().lineIn() * 0.0254),
              when(told.valve(), spec.fill().cv() * Units.KV_PER_CV),
              when(told.valve(), Pressure.ofPsi(50).pascals()),
              when(
                  !Double.isNaN(spec.water().regulatorPsi()),
                  Pressure.ofPsi(Math.max(1, zeroIfNan(spec.water().regulatorPsi()))).pascals())));
    }
    return settings;
  }

  private static double zeroIfNan(double value) {
    return Double.isNaN(value) ? 0 : value;
  }

  private List<HeatEvidence> heat() {
    List<HeatEvidence> evidence = new ArrayList<>();
    for (Heat h : seen.heats()) {
      Span span = Span.of(h.start(), h.end());
      OptionalDouble unknown = OptionalDouble.empty();
      evidence.add(
          switch (h.form()) {
            case HEAT_REJECTED ->
                new HeatEvidence.HeatRejected(
                    span, h.first() * 1e6 * Units.JOULES_PER_BTU, unknown);
            case TON_HOURS ->
                new HeatEvidence.ChilledWater(
                    span,
                    h.first() * Units.JOULES_PER_TON_HOUR,
                    OptionalDouble.of(h.second()),
                    unknown);
            case CHILLER_KWH ->
                new HeatEvidence.ChillerElectricity(
                    span, h.first() * Units.JOULES_PER_KWH, h.second(), unknown);
            case RUNNING_HOURS ->
                new HeatEvidence.RunningHours(span, h.first(), h.second() / 100, unknown);
            case TEMPERATURES ->
                new HeatEvidence.WaterTemperatures(
                    span,
                    Units.celsius(h.first()),
                    Math.min(Units.celsius(h.first()), Units.celsius(h.second())),
                    h.third() * Units.LITRES_PER_US_GALLON / 60,
                    unknown);
          });
    }
    return evidence;
  }

  private List<MeterFacts> meters() {
    List<MeterFacts> meters = new ArrayList<>();
    for (Meter m : seen.meters()) {
      meters.add(
          new MeterFacts(
              m.code(),
              m.role().equals("makeup") ? MeterFacts.Role.MAKEUP : MeterFacts.Role.BLOWDOWN,
              Optional.of(MeterFacts.Type.valueOf(m.type().toUpperCase(Locale.ROOT))),
              OptionalDouble.of(m.accuracyPercent() / 100),
              OptionalDouble.of(m.sizeIn() * 25.4),
              Optional.ofNullable(m.removedAt()),
              Optional.of(MeterFacts.Source.CITY),
              OptionalDouble.of(
                  VolumeUnit.ofCode(m.unit()).litres()
                      * m.multiplier()
                      * Math.pow(10, -m.decimals())),
              volumes(m),
              intervals(m.code())));
    }
    return meters;
  }

  private List<RegisterVolume> volumes(Meter meter) {
    record Point(Instant at, double register, Duration within) {}
    List<Point> points = new ArrayList<>();
    if (meter.installedAt().isAfter(from.atStartOfDay(zone).toInstant())) {
      points.add(new Point(meter.installedAt(), meter.firstRegister(), Duration.ZERO));
    }
    for (Reading r : seen.readings()) {
      if (r.meter().equals(meter.code())) {
        Instant at =
            r.dayOnly()
                ? r.at().atZone(zone).toLocalDate().atTime(12, 0).atZone(zone).toInstant()
                : r.at();
        points.add(new Point(at, r.register(), r.dayOnly() ? Duration.ofHours(12) : Duration.ZERO));
      }
    }
    Instant removed = meter.removedAt();
    Double last = meter.lastRegister();
    if (removed != null && last != null) {
      points.add(new Point(removed, last, Duration.ZERO));
    }
    points.sort(Comparator.comparing(Point::at));
    List<RegisterVolume> volumes = new ArrayList<>();
    double unit = VolumeUnit.ofCode(meter.unit()).litres() * meter.multiplier();
    for (int i = 1; i < points.size(); i++) {
      Point a = points.get(i - 1);
      Point b = points.get(i);
      double counts = b.register() - a.register();
      if (counts < 0) {
        counts += Math.pow(10, meter.digits());
      }
      if (b.at().isAfter(a.at())) {
        volumes.add(
            new RegisterVolume(
                Span.of(a.at(), b.at()), counts * unit, false, a.within(), b.within()));
      }
    }
    return volumes;
  }

  private IntervalVolumes intervals(String meter) {
    List<Interval> rows = seen.intervals().stream().filter(i -> i.meter().equals(meter)).toList();
    long[] start = new long[rows.size()];
    int[] minutes = new int[rows.size()];
    float[] litres = new float[rows.size()];
    for (int i = 0; i < rows.size(); i++) {
      start[i] = rows.get(i).start().getEpochSecond();
      minutes[i] = rows.get(i).minutes();
      litres[i] = (float) (rows.get(i).gallons() * Units.LITRES_PER_US_GALLON);
    }
    return new IntervalVolumes(start, minutes, litres);
  }

  private List<WaterSample> samples() {
    return seen.samples().stream()
        .map(
            s ->
                new WaterSample(
                    s.at(),
                    OptionalDouble.of(s.makeupUsCm()),
                    OptionalDouble.of(s.basinUsCm()),
                    known(s.makeupChloride()),
                    known(s.basinChloride()),
                    known(s.makeupCalcium()),
                    known(s.basinCalcium())))
        .toList();
  }

  private List<SupplyPressure> pressures() {
    return seen.pressures().stream()
        .map(
            p ->
                new SupplyPressure(
                    p.at(),
                    OptionalDouble.of(Pressure.ofPsi(p.supplyPsi()).pascals()),
                    p.inletPsi() == null
                        ? OptionalDouble.empty()
                        : OptionalDouble.of(Pressure.ofPsi(p.inletPsi()).pascals())))
        .toList();
  }

  private List<Visit> visits() {
    return told.visits().stream()
        .map(
            v ->
                new Visit(
                    v.at(),
                    v.events().stream()
                        .map(e -> Visit.Event.valueOf(e.replace('-', '_').toUpperCase(Locale.ROOT)))
                        .collect(Collectors.toUnmodifiableSet()),
                    v.drainedGal() == null
                        ? OptionalDouble.empty()
                        : OptionalDouble.of(v.drainedGal() * Units.LITRES_PER_US_GALLON),
                    Set.of(),
                    known(v.handheldUsCm()),
                    known(v.controllerUsCm()),
                    v.basinF() == null
                        ? OptionalDouble.empty()
                        : OptionalDouble.of(Units.celsius(v.basinF()))))
        .toList();
  }

  private static OptionalDouble known(@Nullable Double value) {
    return value == null ? OptionalDouble.empty() : OptionalDouble.of(value);
  }
}
