package towerledger.balance.facts;

import java.time.Instant;
import java.util.Collections;
import java.util.OptionalDouble;
import java.util.Set;
import java.util.TreeSet;

/**
 * What was seen and done on a visit.
 *
 * @param at when
 * @param events what happened or was done
 * @param drainedLitres water drained by intention, if known
 * @param findings what the inspection found
 * @param handheldConductivityUsCm basin conductivity by a hand-held instrument
 * @param controllerConductivityUsCm basin conductivity shown by the controller at the same minute
 * @param basinTemperatureC temperature of the basin water
 */
public record Visit(
    Instant at,
    Set<Event> events,
    OptionalDouble drainedLitres,
    Set<InspectionFinding> findings,
    OptionalDouble handheldConductivityUsCm,
    OptionalDouble controllerConductivityUsCm,
    OptionalDouble basinTemperatureC) {

  /** What happened or was done on a visit. */
  public enum Event {
    BASIN_DRAINED,
    START_UP,
    SHUT_DOWN,
    SETPOINT_CHANGED,
    LEVEL_CONTROL_ADJUSTED,
    LEVEL_CONTROL_REPLACED,
    REGULATOR_ADJUSTED,
    BLOWDOWN_REPAIRED,
    LEAK_REPAIRED,
    METER_REPLACED,
    TREATMENT_CHANGED
  }

  public Visit {
    // In their own order in every run: the digest of a month is made of this text.
    events = Collections.unmodifiableSet(new TreeSet<>(events));
    findings = Collections.unmodifiableSet(new TreeSet<>(findings));
    Plausible.notNegative("drained volume", drainedLitres, "L");
    Plausible.positive("hand-held conductivity", handheldConductivityUsCm, "µS/cm");
    Plausible.positive("controller's conductivity", controllerConductivityUsCm, "µS/cm");
  }
}
