package towerledger.finding;

import java.util.EnumSet;
import java.util.Set;
import towerledger.balance.Cause;
import towerledger.balance.facts.Visit;

/** Which logged work mends which cause. Common practice, no source. */
final class Repairs {

  private Repairs() {}

  /** Whether any of the events mends any of the causes. */
  static boolean mend(Set<Visit.Event> events, Set<Cause> causes) {
    return causes.stream().flatMap(cause -> of(cause).stream()).anyMatch(events::contains);
  }

  private static Set<Visit.Event> of(Cause cause) {
    return switch (cause) {
      case FILL_VALVE_LEAKING_BY, FILL_VALVE_STUCK_OPEN, FILL_VALVE_SHUT ->
          EnumSet.of(
              Visit.Event.LEVEL_CONTROL_ADJUSTED,
              Visit.Event.LEVEL_CONTROL_REPLACED,
              Visit.Event.REGULATOR_ADJUSTED,
              Visit.Event.LEAK_REPAIRED);
      case OVERFLOW_ON_SHUTDOWN, LEVEL_SET_HIGH ->
          EnumSet.of(Visit.Event.LEVEL_CONTROL_ADJUSTED, Visit.Event.LEVEL_CONTROL_REPLACED);
      case BLOWDOWN_STUCK_OPEN -> EnumSet.of(Visit.Event.BLOWDOWN_REPAIRED);
      case LOW_CYCLES, CONDUCTIVITY_ERROR ->
          EnumSet.of(
              Visit.Event.SETPOINT_CHANGED,
              Visit.Event.BLOWDOWN_REPAIRED,
              Visit.Event.TREATMENT_CHANGED);
      case MAKEUP_LINE_LEAK, BASIN_LEAK, DRIFT_EXCESS, OTHER_USE ->
          EnumSet.of(Visit.Event.LEAK_REPAIRED);
      case MAKEUP_METER_ERROR, BLOWDOWN_METER_ERROR -> EnumSet.of(Visit.Event.METER_REPLACED);
      case HEAT_LOAD_ERROR, NONE, MISSING_DATA -> EnumSet.noneOf(Visit.Event.class);
    };
  }
}
