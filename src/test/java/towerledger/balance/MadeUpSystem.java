package towerledger.balance;

import java.time.Duration;
import java.time.Instant;
import java.time.LocalDate;
import java.time.ZoneId;
import java.util.ArrayList;
import java.util.List;
import java.util.Optional;
import java.util.OptionalDouble;
import java.util.function.IntPredicate;
import java.util.function.ToDoubleFunction;
import org.jspecify.annotations.Nullable;
import towerledger.balance.facts.HeatEvidence;
import towerledger.balance.facts.IntervalVolumes;
import towerledger.balance.facts.MeterFacts;
import towerledger.balance.facts.OperatingSettings;
import towerledger.balance.facts.RegisterVolume;
import towerledger.balance.facts.SystemAttributes;
import towerledger.balance.facts.SystemFacts;
import towerledger.balance.facts.TowerFacts;
import towerledger.balance.facts.Visit;
import towerledger.balance.facts.WaterSample;
import towerledger.balance.facts.WeatherHours;
import towerledger.psychrometrics.MoistAir;
import towerledger.quantity.Span;
import towerledger.thermal.DesignPoint;
import towerledger.thermal.TowerDesign;
import towerledger.thermal.WetTower;

/**
 * A system made up for tests: 300 tons, heat by the day, four cycles held, read every week. Its
 * water is computed directly (Poppe hour by hour, E·C/(C−1)), not by the code that judges it.
 */
final class MadeUpSystem {

  static final ZoneId ZONE = ZoneId.of("America/Chicago");
  static final LocalDate FROM = LocalDate.of(2025, 1, 1);
  static final int DAYS = 540;
  static final double NOMINAL_W = 300 * 4396;
  static final double CYCLES = 4;
  private static final double FRESH_US_CM = 400;
  private static final double PRESSURE_PA = 99_000;
  private static final double SETPOINT_C = 25;

  private static final double[] EVAPORATION_L = new double[DAYS];
  private static final double[] HOURLY_L = new double[24 * DAYS];
  private static final double[] HEAT_J = new double[DAYS];
  private static final WeatherHours WEATHER;

  // Computed once: the same air and the same heat for every test.
  static {
    float[] dry = new float[24 * DAYS];
    float[] wet = new float[24 * DAYS];
    float[] pressure = new float[24 * DAYS];
    MoistAir design = MoistAir.fromWetBulb(35, 25.56, PRESSURE_PA);
    double water = NOMINAL_W / 4186 / 5.556;
    WetTower tower =
        WetTower.of(TowerDesign.open(DesignPoint.withUsualAirFlow(water, 35, 29.444, design)));
    for (int h = 0; h < dry.length; h++) {
      double season = -Math.cos(2 * Math.PI * (h / 24.0 - 15) / 365);
      double day = -Math.cos(2 * Math.PI * (h % 24 - 10) / 24.0);
      double t = 15 + 13 * season + 4 * day;
      MoistAir air = MoistAir.fromRelativeHumidity(t, 0.6 - 0.15 * day, PRESSURE_PA);
      dry[h] = (float) t;
      wet[h] = (float) Math.min(t, air.wetBulbC());
      pressure[h] = (float) PRESSURE_PA;
      double heatW = NOMINAL_W * (0.3 + 0.2 * season + 0.1 * day);
      HEAT_J[h / 24] += heatW * 3600;
      HOURLY_L[h] =
          tower.operate(heatW, air, SETPOINT_C).evaporationKgS()
              * 3600
              / DesignPoint.WATER_KG_PER_LITRE;
      EVAPORATION_L[h / 24] += HOURLY_L[h];
    }
    WEATHER = new WeatherHours(at(0), dry, wet, pressure, new boolean[dry.length]);
  }

  /** Extra makeup of a day, L. */
  ToDoubleFunction<Integer> freshLossL = day -> 0;

  /** Part of a day's extra makeup that flows in each of its hours; null: nothing is logged. */
  double @Nullable [] freshLossByHour;

  List<WaterSample> samples = new ArrayList<>();
  List<Visit> visits = new ArrayList<>();
  List<RegisterVolume> volumes = new ArrayList<>();
  IntPredicate heatKnown = day -> true;
  OptionalDouble targetCycles = OptionalDouble.of(CYCLES);
  OptionalDouble volumeLitres = OptionalDouble.empty();
  boolean watersideEconomizer;
  OperatingSettings.BlowdownControl control = OperatingSettings.BlowdownControl.CONDUCTIVITY;

  static Instant at(int day) {
    return FROM.atStartOfDay(ZONE).toInstant().plus(Duration.ofDays(day));
  }

  /** Water that evaporates in a day, L. */
  double evaporationL(int day) {
    return EVAPORATION_L[day];
  }

  /** Makeup of a day, drift neglected, L. */
  double makeupL(int day) {
    return EVAPORATION_L[day] * CYCLES / (CYCLES - 1) + freshLossL.applyAsDouble(day);
  }

  /** Reads the register every week and samples the water every fortnight. */
  MadeUpSystem observed() {
    for (int day = 0; day + 7 <= DAYS; day += 7) {
      double litres = 0;
      for (int d = day; d < day + 7; d++) {
        litres += makeupL(d);
      }
      volumes.add(RegisterVolume.read(Span.of(at(day), at(day + 7)), litres));
      if (day % 14 == 0) {
        samples.add(
            WaterSample.ofConductivities(
                at(day).plus(Duration.ofHours(15)), FRESH_US_CM, CYCLES * FRESH_US_CM));
      }
    }
    return this;
  }

  SystemFacts facts() {
    List<HeatEvidence> heat = new ArrayList<>();
    for (int day = 0; day < DAYS; day++) {
      if (heatKnown.test(day)) {
        heat.add(
            new HeatEvidence.HeatRejected(
                Span.of(at(day), at(day + 1)), HEAT_J[day], OptionalDouble.empty()));
      }
    }
    return new SystemFacts(
        "MADE-UP",
        ZONE,
        attributes(),
        List.of(TowerFacts.ofNominalHeat("T", NOMINAL_W)),
        List.of(settings()),
        WEATHER,
        heat,
        volumes.isEmpty() ? List.of() : List.of(meter("M", volumes, intervals())),
        samples,
        List.of(),
        visits);
  }

  private SystemAttributes attributes() {
    SystemAttributes open = SystemAttributes.openTower();
    return new SystemAttributes(
        open.kind(),
        volumeLitres,
        open.heatSource(),
        watersideEconomizer,
        open.buildingUse(),
        open.occupiedFrom(),
        open.occupiedTo(),
        open.occupiedDays(),
        open.idleMonths());
  }

  private IntervalVolumes intervals() {
    double[] byHour = freshLossByHour;
    if (byHour == null) {
      return IntervalVolumes.none();
    }
    long[] start = new long[HOURLY_L.length];
    int[] minutes = new int[HOURLY_L.length];
    float[] litres = new float[HOURLY_L.length];
    for (int h = 0; h < litres.length; h++) {
      start[h] = at(0).getEpochSecond() + 3600L * h;
      minutes[h] = 60;
      litres[h] =
          (float)
              (HOURLY_L[h] * CYCLES / (CYCLES - 1)
                  + freshLossL.applyAsDouble(h / 24) * byHour[h % 24]);
    }
    return new IntervalVolumes(start, minutes, litres);
  }

  static MeterFacts meter(String code, List<RegisterVolume> volumes) {
    return meter(code, volumes, IntervalVolumes.none());
  }

  private static MeterFacts meter(
      String code, List<RegisterVolume> volumes, IntervalVolumes intervals) {
    return new MeterFacts(
        code,
        MeterFacts.Role.MAKEUP,
        Optional.of(MeterFacts.Type.TURBINE),
        OptionalDouble.of(0.015),
        OptionalDouble.empty(),
        Optional.empty(),
        Optional.empty(),
        OptionalDouble.of(10),
        volumes,
        intervals);
  }

  /** A meter read by the hour and no other way, the hours spread evenly over a day. */
  static MeterFacts logger(String code, MadeUpSystem system, java.util.function.IntPredicate kept) {
    int[] hours = java.util.stream.IntStream.range(0, 24 * DAYS).filter(kept).toArray();
    long[] starts = new long[hours.length];
    int[] minutes = new int[hours.length];
    float[] litres = new float[hours.length];
    for (int i = 0; i < hours.length; i++) {
      starts[i] = at(0).getEpochSecond() + 3600L * hours[i];
      minutes[i] = 60;
      litres[i] = (float) (system.makeupL(hours[i] / 24) / 24);
    }
    return new MeterFacts(
        code,
        MeterFacts.Role.MAKEUP,
        Optional.of(MeterFacts.Type.TURBINE),
        OptionalDouble.of(0.015),
        OptionalDouble.empty(),
        Optional.empty(),
        Optional.empty(),
        OptionalDouble.of(10),
        List.of(),
        new IntervalVolumes(starts, minutes, litres));
  }

  private OperatingSettings settings() {
    OptionalDouble unknown = OptionalDouble.empty();
    return new OperatingSettings(
        at(0),
        OptionalDouble.of(SETPOINT_C),
        targetCycles,
        targetCycles.isPresent() && control == OperatingSettings.BlowdownControl.CONDUCTIVITY
            ? OptionalDouble.of(CYCLES * FRESH_US_CM)
            : unknown,
        Optional.of(control),
        unknown,
        Optional.empty(),
        Optional.empty(),
        unknown,
        unknown,
        unknown,
        unknown);
  }
}
