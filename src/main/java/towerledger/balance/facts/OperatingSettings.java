package towerledger.balance.facts;

import java.time.Instant;
import java.util.Optional;
import java.util.OptionalDouble;

/**
 * The settings in force from an instant until the next set takes over. Each set is complete: what
 * is empty is not known, not 'as before'.
 *
 * @param effectiveFrom first instant at which the set holds
 * @param coldWaterSetpointC cold-water set-point
 * @param targetCycles cycles of concentration aimed at, above 1
 * @param conductivitySetpointUsCm basin conductivity at which the bleed opens
 * @param blowdownControl how the bleed is controlled, if known
 * @param driftFraction drift as a fraction of the circulation, 0–0.05
 * @param levelControl what holds the basin level, if known
 * @param levelSensorOutside whether the level sensor hangs outside the basin, if known
 * @param makeupLineMetres inner diameter of the makeup line
 * @param fillValveKv flow coefficient of the fill valve, m³/h at 1 bar
 * @param fillValveMaxPascals highest supply pressure at which the fill valve closes, gauge
 * @param regulatorSetPascals set pressure of the regulator, gauge
 */
public record OperatingSettings(
    Instant effectiveFrom,
    OptionalDouble coldWaterSetpointC,
    OptionalDouble targetCycles,
    OptionalDouble conductivitySetpointUsCm,
    Optional<BlowdownControl> blowdownControl,
    OptionalDouble driftFraction,
    Optional<LevelControl> levelControl,
    Optional<Boolean> levelSensorOutside,
    OptionalDouble makeupLineMetres,
    OptionalDouble fillValveKv,
    OptionalDouble fillValveMaxPascals,
    OptionalDouble regulatorSetPascals) {

  /** How the bleed is controlled. */
  public enum BlowdownControl {
    CONDUCTIVITY,
    MAKEUP_PROPORTIONAL,
    TIMER,
    MANUAL,
    NONE
  }

  /** What holds the basin level. */
  public enum LevelControl {
    MECHANICAL_FLOAT,
    FLOAT_SWITCH,
    CONDUCTANCE_PROBES,
    ULTRASONIC,
    PRESSURE_TRANSDUCER,
    MANUAL,
    OTHER
  }

  public OperatingSettings {
    Plausible.between("cold-water set-point", coldWaterSetpointC, -10, 80, "°C");
    if (targetCycles.isPresent() && !(targetCycles.getAsDouble() > 1)) {
      throw new IllegalArgumentException(
          "target cycles of %s are not above 1; cycles are basin over makeup conductivity"
              .formatted(targetCycles.getAsDouble()));
    }
    Plausible.positive("conductivity set-point", conductivitySetpointUsCm, "µS/cm");
    Plausible.between("drift", driftFraction, 0, 0.05, "of the circulation");
    Plausible.positive("makeup line", makeupLineMetres, "m");
    Plausible.positive("flow coefficient of the fill valve", fillValveKv, "m³/h");
    Plausible.positive("highest pressure of the fill valve", fillValveMaxPascals, "Pa");
    Plausible.positive("set pressure of the regulator", regulatorSetPascals, "Pa");
  }

  /** Nothing known from this instant on. */
  public static OperatingSettings unknownFrom(Instant effectiveFrom) {
    return new OperatingSettings(
        effectiveFrom,
        OptionalDouble.empty(),
        OptionalDouble.empty(),
        OptionalDouble.empty(),
        Optional.empty(),
        OptionalDouble.empty(),
        Optional.empty(),
        Optional.empty(),
        OptionalDouble.empty(),
        OptionalDouble.empty(),
        OptionalDouble.empty(),
        OptionalDouble.empty());
  }
}
