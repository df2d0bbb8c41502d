package towerledger.simulation.fleet;

import java.time.LocalDate;
import java.util.List;
import towerledger.simulation.Observations.Visit;

/**
 * What the customer told of a plant, true but incomplete.
 *
 * @param airFlow whether the design air flow is known
 * @param designPoint whether the design temperatures are known
 * @param coldSetpoint whether the cold-water set-point is known
 * @param drift whether the drift is known
 * @param valve whether the fill valve's coefficient and limit are known
 * @param schedule whether use and occupied hours are known
 * @param fanControl whether the fan control is known
 * @param bleedFactors dated factors on the bleed's aim, the first 1
 * @param visits visits with what was read and done
 */
record Told(
    boolean airFlow,
    boolean designPoint,
    boolean coldSetpoint,
    boolean drift,
    boolean valve,
    boolean schedule,
    boolean fanControl,
    List<BleedFactor> bleedFactors,
    List<Visit> visits) {

  Told {
    bleedFactors = List.copyOf(bleedFactors);
    visits = List.copyOf(visits);
  }

  /** From a day on the bleed aims at this multiple of its first set-point. */
  record BleedFactor(LocalDate from, double factor) {}
}
