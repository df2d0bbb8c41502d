package towerledger.simulation.demo;

import java.time.Instant;
import java.time.LocalDate;
import java.time.LocalTime;
import java.time.ZoneId;
import java.util.ArrayList;
import java.util.Comparator;
import java.util.List;
import towerledger.simulation.Chance;
import towerledger.simulation.HourGrid;
import towerledger.simulation.Nuisances;
import towerledger.simulation.Nuisances.Drain;
import towerledger.simulation.Observations;
import towerledger.simulation.Observations.Visit;
import towerledger.simulation.Observer;
import towerledger.simulation.Operation;
import towerledger.simulation.PlantSpec.BleedMode;
import towerledger.simulation.SimulatedWeather;
import towerledger.simulation.WaterRun;
import towerledger.simulation.demo.DemoSystem.Dated;

/** One system of the book lived through: its run, its sound twin and what was written down. */
public record DemoRun(DemoSystem system, WaterRun water, WaterRun twin, Observations observations) {

  /** Code of the system. */
  public String code() {
    return system.code();
  }

  static DemoRun of(DemoSystem system, DemoSite site, SimulatedWeather weather, Chance book) {
    Chance chance = book.branch(system.code());
    HourGrid grid = weather.hours().grid();
    ZoneId zone = site.zone();
    List<Call> calls = calls(system, zone, chance.branch("visits"));
    Nuisances planned = system.nuisances();
    List<Drain> drains = new ArrayList<>(planned.drains());
    List<Integer> visitHours = new ArrayList<>();
    for (Call call : calls) {
      int hour = grid.indexOf(call.at());
      visitHours.add(hour);
      if (call.event() != null && call.event().drainedPart() != null) {
        drains.add(new Drain(hour + 1, call.event().drainedPart(), true));
      }
    }
    drains.sort(Comparator.comparingInt(Drain::hour));
    Nuisances nuisances =
        new Nuisances(
            planned.loadSteps(),
            drains,
            planned.setpointChanges(),
            planned.pressureSteps(),
            visitHours);
    Operation operation =
        Operation.of(system.plant(), weather, nuisances, chance.branch("operation"));
    WaterRun water =
        WaterRun.of(system.plant(), operation, DemoStories.faultsOf(system.code(), grid, zone));
    WaterRun twin = WaterRun.of(system.plant(), operation, List.of());
    Observations seen =
        Observer.observe(
            water,
            system.evidence(),
            chance.branch("observer"),
            system.code(),
            DemoBook.FROM,
            DemoBook.TO);
    return new DemoRun(
        system,
        water,
        twin,
        new Observations(
            seen.meters(),
            seen.readings(),
            seen.intervals(),
            seen.samples(),
            seen.pressures(),
            seen.heats(),
            visits(system, water, twin, calls, chance.branch("notes")),
            List.of()));
  }

  private record Call(Instant at, @org.jspecify.annotations.Nullable Dated event) {}

  private static List<Call> calls(DemoSystem system, ZoneId zone, Chance chance) {
    List<Call> calls = new ArrayList<>();
    List<LocalDate> eventDays = new ArrayList<>();
    for (Dated event : system.events()) {
      LocalTime time = LocalTime.of(9, 5 * chance.wholeBetween(0, 11));
      calls.add(new Call(event.day().atTime(time).atZone(zone).toInstant(), event));
      eventDays.add(event.day());
    }
    for (Instant at :
        Observer.rounds(DemoBook.FROM, DemoBook.TO, system.evidence().visitDays(), zone, chance)) {
      LocalDate day = at.atZone(zone).toLocalDate();
      boolean near =
          eventDays.stream().anyMatch(d -> Math.abs(d.toEpochDay() - day.toEpochDay()) < 8);
      boolean idle = system.plant().basin().idle(day.getMonthValue());
      if (!near && !idle) {
        calls.add(new Call(at, null));
      }
    }
    calls.sort(Comparator.comparing(Call::at));
    return calls;
  }

  private static List<Visit> visits(
      DemoSystem system, WaterRun water, WaterRun twin, List<Call> calls, Chance chance) {
    HourGrid grid = water.operation().hours().grid();
    boolean controlled = system.plant().bleed().mode() == BleedMode.CONDUCTIVITY;
    double slope = chance.factor(0.012);
    List<Visit> visits = new ArrayList<>();
    for (Call call : calls) {
      int hour = grid.indexOf(call.at());
      Dated event = call.event();
      double basin = water.basinUsCm(hour);
      boolean wet = !Double.isNaN(basin);
      double handheld = basin * chance.factor(0.015);
      double display = water.shownBasinUsCm(hour) * slope * chance.factor(0.006);
      double basinF =
          water.operation().running(hour)
              ? water.operation().coldC(hour) * 1.8 + 32
              : water.operation().weather().dryBulbC(hour) * 1.8 + 32;
      double level = system.plant().basin().volumeL();
      boolean levelNormal = wet && Math.abs(water.basinL(hour) / level - 1) < 0.03;
      boolean overflowDry = wet && water.overflowL(hour) == 0;
      boolean bleedNormal = wet && controlled && water.bleedL(hour) == twin.bleedL(hour);
      String seen = VisitNotes.seen(levelNormal && overflowDry, bleedNormal, chance);
      List<String> findings =
          VisitNotes.findings(levelNormal && overflowDry, overflowDry, bleedNormal, chance);
      String done = chance.pick(VisitNotes.done());
      visits.add(
          new Visit(
              call.at(),
              event == null ? List.of() : event.events(),
              event == null || event.drainedPart() == null
                  ? null
                  : (double) Math.round(water.drainedL(hour + 1) / 3.785411784 / 10) * 10,
              findings,
              wet ? (double) Math.round(handheld) : null,
              wet && controlled ? (double) Math.round(display) : null,
              wet ? (double) Math.round(basinF) : null,
              event == null ? seen : event.seen(),
              event == null ? done : event.done()));
    }
    return visits;
  }
}
