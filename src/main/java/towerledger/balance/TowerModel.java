package towerledger.balance;

import java.util.ArrayList;
import java.util.List;
import java.util.OptionalDouble;
import java.util.function.Function;
import towerledger.balance.facts.SystemAttributes;
import towerledger.balance.facts.SystemFacts;
import towerledger.balance.facts.TowerFacts;
import towerledger.psychrometrics.HumidityRatio;
import towerledger.psychrometrics.MoistAir;
import towerledger.quantity.OutOfRangeException;
import towerledger.thermal.CellStaging;
import towerledger.thermal.DesignPoint;
import towerledger.thermal.FanControl;
import towerledger.thermal.FlowArrangement;
import towerledger.thermal.ResponseTable;
import towerledger.thermal.TowerDesign;
import towerledger.thermal.TowerKind;
import towerledger.thermal.fill.FillLaw;

/**
 * The towers of a system as the thermal model takes them: what the nameplate leaves open is assumed
 * here, and every assumption is written down. Designs are scaled to one and the same water flow, so
 * that towers that differ in size alone share a response table.
 */
final class TowerModel {

  /** Water flow to which every design is scaled, kg/s. */
  private static final double SCALED_WATER_KG_S = 100;

  /** Rating conditions of the trade where the nameplate is silent: 95/85/78 °F. */
  private static final double USUAL_COLD_WATER_C = (85 - 32) / 1.8;

  private static final double USUAL_WET_BULB_C = (78 - 32) / 1.8;
  private static final double USUAL_RANGE_K = 10 / 1.8;
  private static final double USUAL_DEPRESSION_K = 9;

  /** Cold-water set-point where it is not known; common practice lies between 70 and 85 °F. */
  static final double USUAL_SETPOINT_C = 25;

  private static final int MOST_TRIES = 8;

  /**
   * One tower, or several alike.
   *
   * @param table evaporation of the scaled tower
   * @param share part of the system's nominal heat
   * @param heatAtNominalW heat of the scaled tower while this one carries its nominal heat
   */
  record Unit(ResponseTable table, double share, double heatAtNominalW) {}

  private final List<Unit> units = new ArrayList<>();
  private final List<String> assumptions = new ArrayList<>();

  private TowerModel() {}

  static TowerModel of(
      SystemFacts facts, double pressurePa, Function<TowerDesign, ResponseTable> tables) {
    TowerModel model = new TowerModel();
    double nominal = ControlPlanner.nominalWatts(facts);
    for (TowerFacts tower : facts.towers()) {
      DesignPoint point = model.point(tower, pressurePa);
      TowerDesign wanted =
          new TowerDesign(
              kind(facts.attributes().kind()),
              tower
                  .flowArrangement()
                  .map(
                      a ->
                          a == TowerFacts.FlowArrangement.CROSSFLOW
                              ? FlowArrangement.CROSSFLOW
                              : FlowArrangement.COUNTERFLOW)
                  .orElse(FlowArrangement.COUNTERFLOW),
              tower.cells(),
              CellStaging.EVERY_CELL,
              fans(tower),
              FillLaw.USUAL_EXPONENT,
              point);
      double waterKgS = water(tower);
      double heatAtNominal = tower.nominalHeatWatts() * SCALED_WATER_KG_S / waterKgS;
      model.units.add(
          new Unit(
              model.table(tower.tower(), wanted, tables),
              tower.nominalHeatWatts() / nominal,
              heatAtNominal));
    }
    return model;
  }

  /** A nameplate that no tower could meet is given more air until one can. */
  private ResponseTable table(
      String name, TowerDesign wanted, Function<TowerDesign, ResponseTable> tables) {
    TowerDesign design = wanted;
    for (int tries = 0; ; tries++) {
      try {
        return tables.apply(design);
      } catch (OutOfRangeException e) {
        DesignPoint p = design.point();
        if (tries > MOST_TRIES) {
          throw e;
        }
        if (tries == MOST_TRIES) {
          // Of all design points the usual one can always be met.
          p =
              DesignPoint.withUsualAirFlow(
                  SCALED_WATER_KG_S,
                  USUAL_COLD_WATER_C + USUAL_RANGE_K,
                  USUAL_COLD_WATER_C,
                  MoistAir.fromWetBulb(
                      USUAL_WET_BULB_C + USUAL_DEPRESSION_K,
                      USUAL_WET_BULB_C,
                      p.inletAir().pressurePa()));
        }
        design =
            new TowerDesign(
                design.kind(),
                design.flowArrangement(),
                design.cells(),
                design.staging(),
                design.fanControl(),
                design.fillExponent(),
                new DesignPoint(
                    p.waterFlowKgS(),
                    p.hotWaterC(),
                    p.coldWaterC(),
                    p.inletAir(),
                    1.35 * p.dryAirFlowKgS(),
                    false));
        if (tries == 0) {
          assumptions.add(
              "tower %s could not meet its design point with its air flow: more air is assumed"
                  .formatted(name));
        }
      }
    }
  }

  List<String> assumptions() {
    return List.copyOf(assumptions);
  }

  /**
   * Evaporation of each hour, L.
   *
   * @param load heat as a fraction of the system's nominal; NaN where the weather is not known
   * @param air what the towers stand in
   * @param setPointC cold-water set-point of each hour, °C
   */
  double[] evaporationL(double[] load, double nominalW, TowerAir air, double[] setPointC) {
    int hours = load.length;
    double[] litres = new double[hours];
    double[] heatW = new double[hours];
    double[] kgS = new double[hours];
    for (Unit unit : units) {
      for (int h = 0; h < hours; h++) {
        heatW[h] = load[h] * unit.heatAtNominalW();
      }
      air.evaporation(unit.table(), heatW, setPointC, kgS);
      for (int h = 0; h < hours; h++) {
        // Evaporation goes with the heat at equal load, so the scaled tower's figure is scaled
        // back.
        double perJoule = heatW[h] <= 0 ? 0 : kgS[h] / heatW[h];
        litres[h] +=
            perJoule * load[h] * nominalW * unit.share() * 3600 / DesignPoint.WATER_KG_PER_LITRE;
      }
    }
    return litres;
  }

  private static TowerKind kind(SystemAttributes.Kind kind) {
    return switch (kind) {
      case OPEN -> TowerKind.OPEN;
      case CLOSED_CIRCUIT -> TowerKind.CLOSED_CIRCUIT;
      case EVAPORATIVE_CONDENSER -> TowerKind.EVAPORATIVE_CONDENSER;
      case HYBRID -> TowerKind.HYBRID;
    };
  }

  private static FanControl fans(TowerFacts tower) {
    return switch (tower.fanControl().orElse(TowerFacts.FanControl.VARIABLE_SPEED)) {
      case SINGLE_SPEED -> FanControl.SINGLE_SPEED;
      case TWO_SPEED -> FanControl.TWO_SPEED;
      case VARIABLE_SPEED -> FanControl.VARIABLE_SPEED;
    };
  }

  private static double water(TowerFacts tower) {
    return tower
        .waterFlowKgPerSecond()
        .orElse(
            tower.nominalHeatWatts()
                * ControlPlanner.CIRCULATION_L_PER_HOUR_WATT
                / 3600
                * DesignPoint.WATER_KG_PER_LITRE);
  }

  private DesignPoint point(TowerFacts tower, double pressurePa) {
    String name = tower.tower();
    double wetBulb = tower.wetBulbC().orElse(USUAL_WET_BULB_C);
    double range =
        tower.hotWaterC().isPresent() && tower.coldWaterC().isPresent()
            ? tower.hotWaterC().getAsDouble() - tower.coldWaterC().getAsDouble()
            : USUAL_RANGE_K;
    double cold =
        tower
            .coldWaterC()
            .orElse(
                tower.hotWaterC().isPresent()
                    ? tower.hotWaterC().getAsDouble() - USUAL_RANGE_K
                    : USUAL_COLD_WATER_C);
    if (tower.coldWaterC().isEmpty() || tower.wetBulbC().isEmpty()) {
      assumptions.add(
          "tower %s rated at %.1f/%.1f °C and %.1f °C wet bulb, the trade's usual point where the nameplate is silent"
              .formatted(name, cold + range, cold, wetBulb));
    }
    double usualDry = wetBulb + USUAL_DEPRESSION_K;
    double dry = Math.max(wetBulb + 0.5, tower.dryBulbC().orElse(usualDry));
    if (!HumidityRatio.isPossible(dry, wetBulb, pressurePa)) {
      dry = usualDry;
    }
    if (cold < wetBulb + 0.8 || range < 1 || !HumidityRatio.isPossible(dry, wetBulb, pressurePa)) {
      assumptions.add(
          "design point of tower %s is not possible (cold water %.1f °C, wet bulb %.1f °C, range %.1f K): the usual one is taken"
              .formatted(name, cold, wetBulb, range));
      cold = USUAL_COLD_WATER_C;
      wetBulb = USUAL_WET_BULB_C;
      range = USUAL_RANGE_K;
      dry = wetBulb + USUAL_DEPRESSION_K;
    }
    MoistAir air = MoistAir.fromWetBulb(dry, wetBulb, pressurePa);
    OptionalDouble airFlow = tower.airFlowM3PerSecond();
    if (airFlow.isEmpty()) {
      assumptions.add(
          "air flow of tower %s not known: %.1f kg of water per kg of air"
              .formatted(name, DesignPoint.USUAL_WATER_TO_AIR));
      return DesignPoint.withUsualAirFlow(SCALED_WATER_KG_S, cold + range, cold, air);
    }
    double dryAir = airFlow.getAsDouble() / air.specificVolumeM3PerKg();
    double ratio = water(tower) / dryAir;
    if (ratio < 0.3 || ratio > 3) {
      assumptions.add(
          "air flow of tower %s gives %.2f kg of water per kg of air, outside 0.3 to 3: the usual ratio is taken"
              .formatted(name, ratio));
      return DesignPoint.withUsualAirFlow(SCALED_WATER_KG_S, cold + range, cold, air);
    }
    return DesignPoint.withAirFlow(
        SCALED_WATER_KG_S, cold + range, cold, air, SCALED_WATER_KG_S / ratio);
  }
}
