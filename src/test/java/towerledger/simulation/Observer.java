package towerledger.simulation;

import java.time.Instant;
import java.time.LocalDate;
import java.time.LocalTime;
import java.time.ZoneId;
import java.time.temporal.ChronoUnit;
import java.util.ArrayList;
import java.util.List;
import org.jspecify.annotations.Nullable;
import towerledger.quantity.VolumeUnit;
import towerledger.simulation.EvidencePlan.IntervalPlan;
import towerledger.simulation.EvidencePlan.MeterPlan;
import towerledger.simulation.Observations.Interval;
import towerledger.simulation.Observations.Meter;
import towerledger.simulation.Observations.Pressure;
import towerledger.simulation.Observations.Reading;
import towerledger.simulation.Observations.Sample;

/** Reads a simulated plant as instruments and people would. */
public final class Observer {

  private final WaterRun run;
  private final EvidencePlan plan;
  private final Chance chance;
  private final String code;
  private final LocalDate from;
  private final LocalDate toExclusive;
  private final HourGrid grid;
  private final ZoneId zone;

  private final List<Meter> meters = new ArrayList<>();
  private final List<Reading> readings = new ArrayList<>();

  /** A new meter shows so many times the water that passed. */
  private static final double SECOND_METER = 1.002;

  private final List<Interval> intervals = new ArrayList<>();

  private Observer(
      WaterRun run,
      EvidencePlan plan,
      Chance chance,
      String code,
      LocalDate from,
      LocalDate toExclusive) {
    this.run = run;
    this.plan = plan;
    this.chance = chance;
    this.code = code;
    this.from = from;
    this.toExclusive = toExclusive;
    this.grid = run.operation().hours().grid();
    this.zone = run.operation().hours().zone();
  }

  /**
   * Everything but visits and settings, which a scenario writes itself.
   *
   * @param code the system's code; meters are called after it
   * @param from first day observed
   * @param toExclusive first day no longer observed
   */
  public static Observations observe(
      WaterRun run,
      EvidencePlan plan,
      Chance chance,
      String code,
      LocalDate from,
      LocalDate toExclusive) {
    Observer observer = new Observer(run, plan, chance, code, from, toExclusive);
    observer.readMeters();
    return new Observations(
        List.copyOf(observer.meters),
        List.copyOf(observer.readings),
        List.copyOf(observer.intervals),
        observer.samples(),
        observer.pressures(),
        HeatLog.of(run, plan, chance.branch("heat"), from, toExclusive),
        List.of(),
        List.of());
  }

  /** Fridays (now and then the Thursday before or the Monday after) every so many days. */
  public static List<Instant> rounds(
      LocalDate from, LocalDate toExclusive, int everyDays, ZoneId zone, Chance chance) {
    List<Instant> rounds = new ArrayList<>();
    LocalDate friday = from;
    while (friday.getDayOfWeek().getValue() != 5) {
      friday = friday.plusDays(1);
    }
    for (; friday.isBefore(toExclusive); friday = friday.plusDays(everyDays)) {
      double luck = chance.between(0, 1);
      LocalDate day = luck < 0.07 ? friday.minusDays(1) : luck > 0.93 ? friday.plusDays(3) : friday;
      LocalTime time = LocalTime.of(chance.wholeBetween(8, 14), 5 * chance.wholeBetween(0, 11));
      if (!day.isBefore(from) && day.isBefore(toExclusive)) {
        rounds.add(day.atTime(time).atZone(zone).toInstant());
      }
    }
    return rounds;
  }

  private void readMeters() {
    List<Instant> rounds =
        rounds(from, toExclusive, plan.readingDays(), zone, chance.branch("reading rounds"));
    Chance luck = chance.branch("readings");
    List<Instant> times = new ArrayList<>();
    times.add(from.atStartOfDay(zone).toInstant());
    for (Instant round : rounds) {
      if (!luck.happens(plan.missedPart())) {
        times.add(round);
      }
    }
    times.add(toExclusive.atStartOfDay(zone).toInstant());
    MeterPlan makeup = plan.meter();
    if (makeup != null) {
      read(code + "-MU", "makeup", makeup, shown(true), times, luck);
      IntervalPlan logger = plan.intervals();
      if (logger != null) {
        log(code + "-MU", makeup, logger);
      }
    }
    if (plan.bleedMeter()) {
      double size = makeup == null ? 1 : makeup.sizeIn() / 2;
      MeterPlan bleed =
          new MeterPlan("gal", 1, 8, 0, 2.5, size, "magnetic", luck.factor(0.008), 0, 1000, -1);
      read(code + "-BD", "blowdown", bleed, shown(false), times, luck);
    }
  }

  /** Litres counted since the first hour, at the start of each hour. */
  private double[] shown(boolean makeup) {
    double[] total = new double[grid.hours() + 1];
    for (int h = 0; h < grid.hours(); h++) {
      total[h + 1] = total[h] + (makeup ? run.shownMakeupL(h) : run.shownBleedL(h));
    }
    return total;
  }

  private void read(
      String meter, String role, MeterPlan kind, double[] total, List<Instant> times, Chance luck) {
    int start = grid.indexOf(from.atStartOfDay(zone).toInstant());
    Instant installed = from.minusYears(4).atStartOfDay(zone).toInstant();
    String type = kind.type();
    boolean swapped = kind.swapHour() >= 0;
    Instant swap = swapped ? grid.at(kind.swapHour()) : null;
    String city = role.equals("makeup") ? "city" : null;
    meters.add(
        new Meter(
            meter,
            role,
            kind.unit(),
            kind.multiplier(),
            kind.digits(),
            kind.decimals(),
            kind.accuracyPercent(),
            kind.sizeIn(),
            type,
            null,
            city,
            null,
            installed,
            0,
            swap,
            swap == null ? null : register(kind, total, start, grid.position(swap), true)));
    if (swap != null) {
      meters.add(
          new Meter(
              meter + "2",
              role,
              kind.unit(),
              kind.multiplier(),
              kind.digits(),
              kind.decimals(),
              kind.accuracyPercent(),
              kind.sizeIn(),
              type,
              null,
              city,
              null,
              swap,
              0,
              null,
              null));
    }
    for (Instant time : times) {
      boolean dayOnly =
          luck.happens(plan.dayOnlyPart())
              && !time.equals(times.get(0))
              && !time.equals(times.get(times.size() - 1));
      boolean second = swap != null && time.isAfter(swap);
      double value =
          second
              ? register(kind, total, kind.swapHour(), grid.position(time), false)
              : register(kind, total, start, grid.position(time), true);
      readings.add(new Reading(second ? meter + "2" : meter, time, dayOnly, value, false));
    }
  }

  private double register(
      MeterPlan kind, double[] total, int start, double position, boolean firstMeter) {
    double years = (position - start) / 8766;
    double litres = at(total, position) - total[start];
    double scale = firstMeter ? kind.scale() * (1 + kind.yearlyDrift() * years / 2) : SECOND_METER;
    double counts = litres * scale / (VolumeUnit.ofCode(kind.unit()).litres() * kind.multiplier());
    double grain = Math.pow(10, kind.decimals());
    double value = Math.floor(((firstMeter ? kind.startRegister() : 0) + counts) * grain) / grain;
    return value % Math.pow(10, kind.digits());
  }

  private static double at(double[] total, double position) {
    int hour = (int) Math.min(total.length - 2, Math.max(0, Math.floor(position)));
    return total[hour] + (total[hour + 1] - total[hour]) * Math.min(1, position - hour);
  }

  private void log(String meter, MeterPlan kind, IntervalPlan logger) {
    int perHour = 60 / logger.minutes();
    boolean bursts = run.spec().fill().bursts();
    for (int h = logger.fromHour(); h < logger.toHour(); h++) {
      double years = (h - logger.fromHour()) / 8766.0;
      boolean second = kind.swapHour() >= 0 && h >= kind.swapHour();
      double scale = second ? SECOND_METER : kind.scale() * (1 + kind.yearlyDrift() * years);
      double gallons = run.shownMakeupL(h) * scale / 3.785411784;
      double wideOpen =
          run.spec()
                  .fill()
                  .wideOpenLPerHour(run.spec().water().inletPsi(run.operation().supplyPsi(h)))
              / 3.785411784
              / perHour;
      double left = gallons;
      for (int part = 0; part < perHour; part++) {
        double here = bursts ? Math.min(left, wideOpen) : gallons / perHour;
        left -= here;
        intervals.add(
            new Interval(
                second ? meter + "2" : meter,
                grid.at(h).plusSeconds(part * 60L * logger.minutes()),
                logger.minutes(),
                Math.round(here * 10) / 10.0));
      }
    }
  }

  private List<Sample> samples() {
    Chance luck = chance.branch("samples");
    List<Instant> rounds = rounds(from, toExclusive, plan.sampleDays(), zone, luck);
    List<Sample> samples = new ArrayList<>();
    int count = 0;
    for (Instant time : rounds) {
      int h = grid.indexOf(time);
      double basin = run.basinUsCm(h);
      double fresh = run.operation().makeupUsCm(h);
      double byDisplay = run.shownBasinUsCm(h);
      boolean analysed = count++ % Math.max(1, 28 / plan.sampleDays()) == 0;
      double chloride = run.spec().water().chloridePerConductivity();
      double calcium = run.spec().water().calciumPerConductivity();
      double scale = luck.between(0.955, 1.0);
      double noise = luck.factor(0.022);
      double freshNoise = luck.factor(0.025);
      double a = luck.factor(0.04);
      double b = luck.factor(0.04);
      double c = luck.factor(0.04);
      double d = luck.factor(0.04);
      if (Double.isNaN(basin) || luck.happens(plan.missedPart())) {
        continue;
      }
      samples.add(
          new Sample(
              time,
              Math.round(fresh * freshNoise),
              Math.round((plan.samplesFromDisplay() ? byDisplay : basin) * noise),
              analysed ? round(fresh * chloride * a) : null,
              analysed ? round(basin * chloride * b) : null,
              analysed ? round(fresh * calcium * c) : null,
              analysed ? round(basin * calcium * d * scale) : null));
    }
    return samples;
  }

  private static @Nullable Double round(double value) {
    return Math.round(value * 10) / 10.0;
  }

  private List<Pressure> pressures() {
    List<Pressure> pressures = new ArrayList<>();
    if (plan.pressureDays() == 0) {
      return pressures;
    }
    Chance luck = chance.branch("pressures");
    for (Instant time : rounds(from, toExclusive, plan.pressureDays(), zone, luck)) {
      double supply = run.operation().supplyPsi(grid.indexOf(time)) + luck.gaussian();
      boolean regulated = !Double.isNaN(run.spec().water().regulatorPsi());
      double inlet = run.spec().water().inletPsi(supply) + 0.7 * luck.gaussian();
      pressures.add(
          new Pressure(time, Math.round(supply), regulated ? (double) Math.round(inlet) : null));
    }
    return pressures;
  }

  /** The hour before an instant, for callers that look at the state on arrival. */
  static Instant toTheHour(Instant time) {
    return time.truncatedTo(ChronoUnit.HOURS);
  }
}
