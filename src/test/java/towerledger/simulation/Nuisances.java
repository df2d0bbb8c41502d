package towerledger.simulation;

import java.util.List;

/** What happens to sound plants too; hours are indices of the grid. */
public record Nuisances(
    List<LoadStep> loadSteps,
    List<Drain> drains,
    List<SetpointChange> setpointChanges,
    List<PressureStep> pressureSteps,
    List<Integer> visitHours) {

  public Nuisances {
    loadSteps = List.copyOf(loadSteps);
    drains = List.copyOf(drains);
    setpointChanges = List.copyOf(setpointChanges);
    pressureSteps = List.copyOf(pressureSteps);
    visitHours = List.copyOf(visitHours);
  }

  public static Nuisances none() {
    return new Nuisances(List.of(), List.of(), List.of(), List.of(), List.of());
  }

  /** A tenant moves in or out: the load is this factor of what it was planned to be. */
  public record LoadStep(int hour, double factor) {}

  /** The basin is emptied, wholly or in part, and refilled. */
  public record Drain(int hour, double part, boolean logged) {}

  /** The treatment vendor moves the bleed's aim. */
  public record SetpointChange(int hour, double factor, boolean logged) {}

  /** The utility changes the pressure of the main for good. */
  public record PressureStep(int hour, double psi) {}
}
