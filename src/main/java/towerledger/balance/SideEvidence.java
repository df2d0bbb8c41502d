package towerledger.balance;

import java.util.EnumMap;
import java.util.EnumSet;
import java.util.List;
import java.util.Map;
import java.util.Set;
import towerledger.balance.facts.InspectionFinding;
import towerledger.balance.facts.OperatingSettings.LevelControl;
import towerledger.balance.facts.Visit;

/**
 * How much likelier causes become by what people saw and how the plant is built. All factors are
 * judgement: common practice, no source.
 */
final class SideEvidence {

  private static final Set<Cause> OVERFLOWS =
      EnumSet.of(
          Cause.FILL_VALVE_LEAKING_BY,
          Cause.FILL_VALVE_STUCK_OPEN,
          Cause.LEVEL_SET_HIGH,
          Cause.OVERFLOW_ON_SHUTDOWN);

  private static final Map<InspectionFinding, Set<Cause>> SPEAKS_FOR =
      new EnumMap<>(InspectionFinding.class);

  private static final Map<InspectionFinding, Set<Cause>> SPEAKS_AGAINST =
      new EnumMap<>(InspectionFinding.class);

  static {
    SPEAKS_FOR.put(
        InspectionFinding.FILL_VALVE_PASSING,
        EnumSet.of(Cause.FILL_VALVE_LEAKING_BY, Cause.LEVEL_SET_HIGH));
    SPEAKS_FOR.put(InspectionFinding.FILL_VALVE_OPEN, EnumSet.of(Cause.FILL_VALVE_STUCK_OPEN));
    SPEAKS_FOR.put(InspectionFinding.FILL_VALVE_CLOSED, EnumSet.of(Cause.FILL_VALVE_SHUT));
    SPEAKS_FOR.put(
        InspectionFinding.OVERFLOW_RUNNING,
        EnumSet.of(Cause.FILL_VALVE_LEAKING_BY, Cause.FILL_VALVE_STUCK_OPEN, Cause.LEVEL_SET_HIGH));
    SPEAKS_FOR.put(
        InspectionFinding.OVERFLOW_AT_STOP,
        EnumSet.of(Cause.OVERFLOW_ON_SHUTDOWN, Cause.LEVEL_SET_HIGH));
    SPEAKS_FOR.put(
        InspectionFinding.LEVEL_HIGH,
        EnumSet.of(Cause.LEVEL_SET_HIGH, Cause.OVERFLOW_ON_SHUTDOWN, Cause.FILL_VALVE_LEAKING_BY));
    SPEAKS_FOR.put(InspectionFinding.BLEED_RUNNING, EnumSet.of(Cause.BLOWDOWN_STUCK_OPEN));
    SPEAKS_FOR.put(InspectionFinding.BASIN_WET, EnumSet.of(Cause.BASIN_LEAK));
    SPEAKS_FOR.put(InspectionFinding.MAKEUP_LINE_WET, EnumSet.of(Cause.MAKEUP_LINE_LEAK));
    SPEAKS_FOR.put(InspectionFinding.ELIMINATORS_DAMAGED, EnumSet.of(Cause.DRIFT_EXCESS));
    SPEAKS_FOR.put(InspectionFinding.HOSE_CONNECTED, EnumSet.of(Cause.OTHER_USE));
    SPEAKS_FOR.put(
        InspectionFinding.METER_STUCK,
        EnumSet.of(Cause.MAKEUP_METER_ERROR, Cause.BLOWDOWN_METER_ERROR));
    SPEAKS_AGAINST.put(
        InspectionFinding.FILL_VALVE_TIGHT,
        EnumSet.of(Cause.FILL_VALVE_LEAKING_BY, Cause.FILL_VALVE_STUCK_OPEN));
    SPEAKS_AGAINST.put(
        InspectionFinding.OVERFLOW_DRY,
        EnumSet.of(Cause.FILL_VALVE_LEAKING_BY, Cause.FILL_VALVE_STUCK_OPEN, Cause.LEVEL_SET_HIGH));
    SPEAKS_AGAINST.put(
        InspectionFinding.LEVEL_NORMAL,
        EnumSet.of(
            Cause.LEVEL_SET_HIGH,
            Cause.FILL_VALVE_STUCK_OPEN,
            Cause.FILL_VALVE_SHUT,
            Cause.OVERFLOW_ON_SHUTDOWN));
    SPEAKS_AGAINST.put(
        InspectionFinding.BLEED_NORMAL, EnumSet.of(Cause.BLOWDOWN_STUCK_OPEN, Cause.LOW_CYCLES));
    SPEAKS_AGAINST.put(InspectionFinding.BASIN_DRY, EnumSet.of(Cause.BASIN_LEAK));
    SPEAKS_AGAINST.put(InspectionFinding.ELIMINATORS_SOUND, EnumSet.of(Cause.DRIFT_EXCESS));
  }

  private static final Map<Visit.Event, Set<Cause>> CURES = new EnumMap<>(Visit.Event.class);

  static {
    CURES.put(
        Visit.Event.LEVEL_CONTROL_ADJUSTED,
        EnumSet.of(
            Cause.LEVEL_SET_HIGH,
            Cause.OVERFLOW_ON_SHUTDOWN,
            Cause.FILL_VALVE_LEAKING_BY,
            Cause.FILL_VALVE_STUCK_OPEN,
            Cause.FILL_VALVE_SHUT));
    CURES.put(
        Visit.Event.LEVEL_CONTROL_REPLACED,
        EnumSet.of(
            Cause.LEVEL_SET_HIGH,
            Cause.OVERFLOW_ON_SHUTDOWN,
            Cause.FILL_VALVE_LEAKING_BY,
            Cause.FILL_VALVE_STUCK_OPEN,
            Cause.FILL_VALVE_SHUT));
    CURES.put(Visit.Event.REGULATOR_ADJUSTED, EnumSet.of(Cause.FILL_VALVE_LEAKING_BY));
    CURES.put(
        Visit.Event.BLOWDOWN_REPAIRED, EnumSet.of(Cause.BLOWDOWN_STUCK_OPEN, Cause.LOW_CYCLES));
    CURES.put(
        Visit.Event.LEAK_REPAIRED,
        EnumSet.of(Cause.MAKEUP_LINE_LEAK, Cause.BASIN_LEAK, Cause.OTHER_USE));
    CURES.put(
        Visit.Event.METER_REPLACED,
        EnumSet.of(Cause.MAKEUP_METER_ERROR, Cause.BLOWDOWN_METER_ERROR));
    CURES.put(Visit.Event.SETPOINT_CHANGED, EnumSet.of(Cause.LOW_CYCLES, Cause.CONDUCTIVITY_ERROR));
    CURES.put(
        Visit.Event.TREATMENT_CHANGED, EnumSet.of(Cause.LOW_CYCLES, Cause.CONDUCTIVITY_ERROR));
  }

  private SideEvidence() {}

  /** Log factors, by ordinal of the cause, of what the visits of one period showed. */
  static double[] leanings(List<Visit> visits) {
    double[] leanings = new double[Cause.values().length];
    for (Visit visit : visits) {
      for (InspectionFinding finding : visit.findings()) {
        Set<Cause> speaksFor = SPEAKS_FOR.getOrDefault(finding, Set.of());
        if (!speaksFor.isEmpty()) {
          for (Cause cause : Cause.values()) {
            leanings[cause.ordinal()] += Math.log(speaksFor.contains(cause) ? 0.5 : 0.06);
          }
        }
        for (Cause cause : SPEAKS_AGAINST.getOrDefault(finding, Set.of())) {
          leanings[cause.ordinal()] += Math.log(0.35);
        }
      }
      if (visit.handheldConductivityUsCm().isPresent()
          && visit.controllerConductivityUsCm().isPresent()) {
        double gap =
            Math.log(
                visit.controllerConductivityUsCm().getAsDouble()
                    / visit.handheldConductivityUsCm().getAsDouble());
        leanings[Cause.CONDUCTIVITY_ERROR.ordinal()] += probeLeaning(gap);
      }
    }
    return leanings;
  }

  /** A gap of a tenth between two instruments is rare when both are right (deviation 4 %). */
  private static double probeLeaning(double gap) {
    double sound = -0.5 * gap * gap / (0.04 * 0.04);
    double wrong = -0.5 * gap * gap / (0.25 * 0.25) + Math.log(0.04 / 0.25);
    return Math.max(-3, Math.min(5, wrong - sound));
  }

  /** How likely the work of one period's visits cured each cause, by ordinal. */
  static double[] cured(List<Visit> visits) {
    double[] cured = new double[Cause.values().length];
    for (Visit visit : visits) {
      for (Visit.Event event : visit.events()) {
        for (Cause cause : CURES.getOrDefault(event, Set.of())) {
          cured[cause.ordinal()] = Math.max(cured[cause.ordinal()], 0.6);
        }
      }
    }
    return cured;
  }

  /** Factors on how often a cause begins, from how the level is held. */
  static double levelControl(Cause cause, LevelControl control) {
    if (!OVERFLOWS.contains(cause)) {
      return 1;
    }
    return switch (control) {
      case MECHANICAL_FLOAT ->
          cause == Cause.FILL_VALVE_LEAKING_BY
              ? 1.6
              : cause == Cause.FILL_VALVE_STUCK_OPEN ? 1 : 1.2;
      case FLOAT_SWITCH, CONDUCTANCE_PROBES, ULTRASONIC, PRESSURE_TRANSDUCER ->
          cause == Cause.FILL_VALVE_LEAKING_BY
              ? 0.7
              : cause == Cause.FILL_VALVE_STUCK_OPEN ? 1.5 : 0.8;
      case MANUAL, OTHER -> 1;
    };
  }

  /**
   * Factor on how often a fill valve leaks by, from the pressure at it. Many sound sites exceed the
   * limit, so it leans and does not decide.
   *
   * @param over highest pressure known at the valve over the highest at which it closes; NaN where
   *     not known
   */
  static double pressure(double over) {
    return over > 1.2 ? 3 : over > 1 ? 2 : over < 0.8 ? 0.6 : 1;
  }
}
