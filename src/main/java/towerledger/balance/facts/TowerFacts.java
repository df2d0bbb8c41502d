package towerledger.balance.facts;

import java.time.Instant;
import java.util.Optional;
import java.util.OptionalDouble;

/**
 * A tower as its nameplate and its owner describe it; what is not known is left empty and assumed,
 * openly, by the reconciliation.
 *
 * @param tower code of the tower
 * @param cells number of cells, at least 1
 * @param flowArrangement counterflow or crossflow, if known
 * @param nominalHeatWatts heat rejected at design (nominal tons × 15,000 Btu/h), above 0
 * @param waterFlowKgPerSecond design circulation, all cells
 * @param hotWaterC design hot water
 * @param coldWaterC design cold water
 * @param wetBulbC design wet bulb
 * @param dryBulbC design dry bulb
 * @param airFlowM3PerSecond design air flow at the design inlet state, all cells
 * @param fanMotorWatts fan motor power, all cells
 * @param fanControl how the fans follow the load, if known
 * @param basinVolumeLitres cold-water basin, if known
 * @param startedOn when it went into service, if known
 */
public record TowerFacts(
    String tower,
    int cells,
    Optional<FlowArrangement> flowArrangement,
    double nominalHeatWatts,
    OptionalDouble waterFlowKgPerSecond,
    OptionalDouble hotWaterC,
    OptionalDouble coldWaterC,
    OptionalDouble wetBulbC,
    OptionalDouble dryBulbC,
    OptionalDouble airFlowM3PerSecond,
    OptionalDouble fanMotorWatts,
    Optional<FanControl> fanControl,
    OptionalDouble basinVolumeLitres,
    Optional<Instant> startedOn) {

  /** Direction of the air against the falling water. */
  public enum FlowArrangement {
    COUNTERFLOW,
    CROSSFLOW
  }

  /** How the fans follow the load. */
  public enum FanControl {
    SINGLE_SPEED,
    TWO_SPEED,
    VARIABLE_SPEED
  }

  public TowerFacts {
    if (cells < 1) {
      throw new IllegalArgumentException(
          "tower %s has %d cells; give at least 1".formatted(tower, cells));
    }
    Plausible.positive("nominal heat of tower " + tower, nominalHeatWatts, "W");
    Plausible.positive("design water flow of tower " + tower, waterFlowKgPerSecond, "kg/s");
    Plausible.between("design hot water of tower " + tower, hotWaterC, -20, 120, "°C");
    Plausible.between("design cold water of tower " + tower, coldWaterC, -20, 80, "°C");
    Plausible.between("design wet bulb of tower " + tower, wetBulbC, -50, 50, "°C");
    Plausible.between("design dry bulb of tower " + tower, dryBulbC, -50, 70, "°C");
    Plausible.positive("design air flow of tower " + tower, airFlowM3PerSecond, "m³/s");
    Plausible.positive("basin volume of tower " + tower, basinVolumeLitres, "L");
  }

  /** A tower of which nothing but the nominal heat is known. */
  public static TowerFacts ofNominalHeat(String tower, double nominalHeatWatts) {
    return new TowerFacts(
        tower,
        1,
        Optional.empty(),
        nominalHeatWatts,
        OptionalDouble.empty(),
        OptionalDouble.empty(),
        OptionalDouble.empty(),
        OptionalDouble.empty(),
        OptionalDouble.empty(),
        OptionalDouble.empty(),
        OptionalDouble.empty(),
        Optional.empty(),
        OptionalDouble.empty(),
        Optional.empty());
  }
}
