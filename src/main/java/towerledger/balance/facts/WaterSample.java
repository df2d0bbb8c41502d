package towerledger.balance.facts;

import java.time.Instant;
import java.util.OptionalDouble;

/**
 * One analysis of makeup and basin water; what was not analysed is empty.
 *
 * @param takenAt when it was taken
 * @param makeupConductivityUsCm conductivity of the makeup, µS/cm, above 0
 * @param basinConductivityUsCm conductivity of the basin, µS/cm, above 0
 * @param makeupChlorideMgL chloride of the makeup, mg/L
 * @param basinChlorideMgL chloride of the basin, mg/L
 * @param makeupCalciumMgL calcium of the makeup, mg/L as CaCO₃
 * @param basinCalciumMgL calcium of the basin, mg/L as CaCO₃
 */
public record WaterSample(
    Instant takenAt,
    OptionalDouble makeupConductivityUsCm,
    OptionalDouble basinConductivityUsCm,
    OptionalDouble makeupChlorideMgL,
    OptionalDouble basinChlorideMgL,
    OptionalDouble makeupCalciumMgL,
    OptionalDouble basinCalciumMgL) {

  /** A basin just filled may read a little below its makeup: two instruments, stirred water. */
  private static final double LEAST_CYCLES = 0.95;

  public WaterSample {
    Plausible.positive("makeup conductivity", makeupConductivityUsCm, "µS/cm");
    Plausible.positive("basin conductivity", basinConductivityUsCm, "µS/cm");
    Plausible.notNegative("makeup chloride", makeupChlorideMgL, "mg/L");
    Plausible.notNegative("basin chloride", basinChlorideMgL, "mg/L");
    Plausible.notNegative("makeup calcium", makeupCalciumMgL, "mg/L as CaCO3");
    Plausible.notNegative("basin calcium", basinCalciumMgL, "mg/L as CaCO3");
  }

  /**
   * Whether the basin is weaker than the makeup, which no evaporating basin is: two values
   * exchanged, or two units.
   */
  public boolean weakerThanMakeup() {
    return weaker(makeupConductivityUsCm, basinConductivityUsCm)
        || weaker(makeupChlorideMgL, basinChlorideMgL);
  }

  private static boolean weaker(OptionalDouble makeup, OptionalDouble basin) {
    return makeup.isPresent()
        && basin.isPresent()
        && basin.getAsDouble() < LEAST_CYCLES * makeup.getAsDouble();
  }

  /** A sample of both conductivities. */
  public static WaterSample ofConductivities(
      Instant takenAt, double makeupConductivityUsCm, double basinConductivityUsCm) {
    return new WaterSample(
        takenAt,
        OptionalDouble.of(makeupConductivityUsCm),
        OptionalDouble.of(basinConductivityUsCm),
        OptionalDouble.empty(),
        OptionalDouble.empty(),
        OptionalDouble.empty(),
        OptionalDouble.empty());
  }
}
