package towerledger.simulation.fleet;

import java.time.Instant;
import java.time.LocalDate;
import java.util.ArrayList;
import java.util.Comparator;
import java.util.List;
import java.util.Optional;
import org.jspecify.annotations.Nullable;
import towerledger.balance.facts.SystemFacts;
import towerledger.simulation.Chance;
import towerledger.simulation.EvidencePlan;
import towerledger.simulation.EvidencePlan.HeatEvidence;
import towerledger.simulation.EvidencePlan.IntervalPlan;
import towerledger.simulation.EvidencePlan.MeterPlan;
import towerledger.simulation.Fault;
import towerledger.simulation.HourGrid;
import towerledger.simulation.Nuisances;
import towerledger.simulation.Nuisances.Drain;
import towerledger.simulation.Nuisances.LoadStep;
import towerledger.simulation.Nuisances.SetpointChange;
import towerledger.simulation.Observations;
import towerledger.simulation.Observations.Visit;
import towerledger.simulation.Observer;
import towerledger.simulation.Operation;
import towerledger.simulation.PlantSpec;
import towerledger.simulation.PlantSpec.BleedMode;
import towerledger.simulation.WaterRun;

/** One plant of a fleet lived through, with its sound twin and what is known of it. */
record FleetMember(
    PlantSpec spec,
    EvidencePlan evidence,
    Optional<Fault> fault,
    WaterRun run,
    WaterRun twin,
    Observations seen,
    SystemFacts facts) {

  private static final List<HeatEvidence> A =
      List.of(
          HeatEvidence.DAILY_HEAT, HeatEvidence.DAILY_TON_HOURS, HeatEvidence.HOURLY_TEMPERATURES);
  private static final List<HeatEvidence> B =
      List.of(
          HeatEvidence.WEEKLY_TON_HOURS,
          HeatEvidence.MONTHLY_CHILLER_KWH,
          HeatEvidence.DAILY_CHILLER_KWH);

  static FleetMember of(FleetPlan plan, FleetWeather weather, int number) {
    Chance chance = new Chance(plan.seed()).branch("member " + number);
    String name = "F%03d".formatted(number);
    HourGrid grid = weather.truth().hours().grid();
    int first = grid.indexOf(FleetPlan.FROM.atStartOfDay(plan.zone()).toInstant());
    PlantSpec spec = PlantLottery.draw(name, plan.climate(), chance.branch("plant"));
    EvidencePlan evidence = evidence(spec, first, grid.hours(), chance.branch("evidence"));
    Chance life = chance.branch("life");
    List<Instant> visits =
        Observer.rounds(
            FleetPlan.FROM, FleetPlan.TO, evidence.visitDays(), plan.zone(), life.branch("visits"));
    Nuisances nuisances = nuisances(grid, first, visits, life);
    Operation operation =
        Operation.of(spec, weather.truth(), nuisances, chance.branch("operation"));
    WaterRun twin = WaterRun.of(spec, operation, List.of());
    Chance luck = chance.branch("fault");
    boolean faulty = luck.between(0, 1) < plan.faultyPart();
    Optional<Fault> fault =
        faulty
            ? new FaultLottery(spec, operation, twin, evidence.bleedMeter(), luck)
                .draw(first, grid.hours())
            : Optional.empty();
    WaterRun run = fault.isEmpty() ? twin : WaterRun.of(spec, operation, List.of(fault.get()));
    Observations seen =
        Observer.observe(
            run, evidence, chance.branch("observer"), name, FleetPlan.FROM, FleetPlan.TO);
    Told told = told(spec, run, nuisances, visits, grid, plan, chance.branch("told"));
    SystemFacts facts =
        FactsOf.plant(spec, told, seen, weather.recorded(), plan.zone(), FleetPlan.FROM);
    return new FleetMember(spec, evidence, fault, run, twin, seen, facts);
  }

  /** Grade of the heat evidence. */
  char grade() {
    return evidence.heat().grade();
  }

  private static EvidencePlan evidence(PlantSpec spec, int first, int hours, Chance chance) {
    double luck = chance.between(0, 1);
    HeatEvidence heat =
        luck < 0.30
            ? chance.pick(A)
            : luck < 0.60
                ? chance.pick(B)
                : luck < 0.75 ? HeatEvidence.MONTHLY_RUNNING_HOURS : HeatEvidence.NONE;
    if (!spec.load().chiller()) {
      heat =
          switch (heat) {
            case MONTHLY_CHILLER_KWH, DAILY_CHILLER_KWH -> HeatEvidence.WEEKLY_TON_HOURS;
            default -> heat;
          };
    }
    double bias =
        switch (heat.grade()) {
          case 'A' -> chance.factor(0.04);
          case 'B' -> chance.factor(0.08);
          case 'C' -> chance.factor(0.15);
          default -> 1;
        };
    double scatter =
        switch (heat.grade()) {
          case 'A' -> 0.03;
          case 'B' -> 0.04;
          default -> 0.08;
        };
    boolean swap = chance.happens(0.05);
    int swapHour = chance.wholeBetween(first + 2000, hours - 2000);
    boolean big = spec.rating().nominalTons() > 300;
    MeterPlan meter =
        new MeterPlan(
            "gal",
            big ? 100 : 10,
            big ? 6 : 7,
            0,
            1.5,
            spec.fill().lineIn(),
            big ? "turbine" : "displacement",
            chance.factor(0.008),
            -chance.between(0, 0.012),
            Math.floor(chance.between(1000, 990_000)),
            swap ? swapHour : -1);
    boolean logger = chance.happens(0.25);
    int readingDays = chance.pick(List.of(7, 7, 14, 28));
    @Nullable IntervalPlan intervals = logger ? new IntervalPlan(first, hours, 60) : null;
    return new EvidencePlan(
        heat,
        bias,
        scatter,
        readingDays,
        0.08,
        0.15,
        meter,
        chance.happens(0.35),
        chance.pick(List.of(7, 14, 28)),
        chance.happens(0.4),
        chance.happens(0.6) ? 28 : 0,
        28,
        intervals);
  }

  private static Nuisances nuisances(
      HourGrid grid, int first, List<Instant> visits, Chance chance) {
    List<LoadStep> steps = new ArrayList<>();
    if (chance.happens(0.35)) {
      steps.add(
          new LoadStep(
              chance.wholeBetween(first + 1500, grid.hours() - 1500),
              chance.happens(0.5) ? chance.between(0.72, 0.9) : chance.between(1.1, 1.28)));
    }
    List<Drain> drains = new ArrayList<>();
    List<Integer> visitHours = visits.stream().map(grid::indexOf).toList();
    for (int i = 4; i < visitHours.size(); i += 6) {
      drains.add(new Drain(visitHours.get(i) + 1, chance.between(0.5, 0.95), true));
    }
    int unlogged = chance.happens(0.4) ? 1 : 0;
    unlogged += chance.happens(0.2) ? 1 : 0;
    for (int i = 0; i < unlogged; i++) {
      drains.add(
          new Drain(chance.wholeBetween(first, grid.hours() - 100), chance.between(0.5, 1), false));
    }
    drains.sort(Comparator.comparingInt(Drain::hour));
    List<SetpointChange> changes = new ArrayList<>();
    double luck = chance.between(0, 1);
    if (luck < 0.25) {
      int visit = chance.wholeBetween(3, visitHours.size() - 3);
      changes.add(new SetpointChange(visitHours.get(visit), chance.between(0.82, 1.25), true));
    } else if (luck < 0.4) {
      changes.add(
          new SetpointChange(
              chance.wholeBetween(first + 1000, grid.hours() - 1000),
              chance.between(0.95, 1.05),
              false));
    }
    return new Nuisances(steps, drains, changes, List.of(), visitHours);
  }

  private static Told told(
      PlantSpec spec,
      WaterRun run,
      Nuisances nuisances,
      List<Instant> visits,
      HourGrid grid,
      FleetPlan plan,
      Chance chance) {
    List<Told.BleedFactor> factors = new ArrayList<>();
    factors.add(new Told.BleedFactor(FleetPlan.FROM, 1));
    for (SetpointChange change : nuisances.setpointChanges()) {
      if (change.logged()) {
        LocalDate day = grid.at(change.hour()).atZone(plan.zone()).toLocalDate();
        factors.add(new Told.BleedFactor(day, change.factor()));
      }
    }
    return new Told(
        chance.happens(0.4),
        chance.happens(0.7),
        chance.happens(0.7),
        chance.happens(0.5),
        chance.happens(0.6),
        chance.happens(0.8),
        chance.happens(0.7),
        factors,
        visits(spec, run, nuisances, visits, grid, chance));
  }

  private static List<Visit> visits(
      PlantSpec spec,
      WaterRun run,
      Nuisances nuisances,
      List<Instant> times,
      HourGrid grid,
      Chance chance) {
    boolean readsBoth = spec.bleed().mode() == BleedMode.CONDUCTIVITY && chance.happens(0.6);
    double slope = chance.factor(0.012);
    List<Visit> visits = new ArrayList<>();
    for (Instant at : times) {
      int hour = grid.indexOf(at);
      double basin = run.basinUsCm(hour);
      double handheld = basin * chance.factor(0.015);
      double display = run.shownBasinUsCm(hour) * slope * chance.factor(0.006);
      List<String> events = new ArrayList<>();
      Double drained = null;
      for (Drain drain : nuisances.drains()) {
        if (drain.logged() && drain.hour() == hour + 1) {
          events.add("basin-drained");
          drained = run.drainedL(hour + 1) / 3.785411784;
        }
      }
      for (SetpointChange change : nuisances.setpointChanges()) {
        if (change.logged() && change.hour() == hour) {
          events.add("setpoint-changed");
        }
      }
      boolean wet = !Double.isNaN(basin);
      visits.add(
          new Visit(
              at,
              events,
              drained,
              List.of(),
              readsBoth && wet ? handheld : null,
              readsBoth && wet ? display : null,
              null,
              "",
              ""));
    }
    return visits;
  }
}
