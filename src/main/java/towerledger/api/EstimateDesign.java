package towerledger.api;

import java.util.ArrayList;
import java.util.List;
import java.util.OptionalDouble;
import org.jspecify.annotations.Nullable;
import towerledger.psychrometrics.MoistAir;
import towerledger.quantity.OutOfRangeException;
import towerledger.quantity.Units;
import towerledger.site.Coded;
import towerledger.site.FanControl;
import towerledger.site.FlowArrangement;
import towerledger.site.SystemKind;
import towerledger.thermal.CellStaging;
import towerledger.thermal.DesignPoint;
import towerledger.thermal.TowerDesign;
import towerledger.thermal.TowerKind;

/**
 * The tower of an estimate: the columns of {@code towers.csv} turned into what the model needs,
 * with every assumption written down.
 */
final class EstimateDesign {

  /** The trade's rating point where the nameplate is silent: 95/85/78 °F; common practice. */
  private static final double USUAL_COLD_WATER_C = Units.celsius(85);

  private static final double USUAL_WET_BULB_C = Units.celsius(78);
  private static final double USUAL_RANGE_K = 10 / 1.8;
  private static final double USUAL_APPROACH_K = 7 / 1.8;

  /** Dry bulb above wet bulb at design where it is not told: 95 over 78 °F. */
  private static final double USUAL_DEPRESSION_K = 17 / 1.8;

  private static final double USUAL_FILL_EXPONENT = 0.6;
  private static final double WATER_HEAT_CAPACITY = 4186;

  /** Columns of a tower's row that an estimate has no use for. */
  private static final List<String> WITHOUT_MEANING =
      List.of(
          "tower",
          "site",
          "name",
          "system",
          "fan_motor_hp",
          "fan_motor_kw",
          "basin_volume_gal",
          "basin_volume_l",
          "has_basin_heater",
          "started_on",
          "system_volume_gal",
          "system_volume_l",
          "heat_source",
          "waterside_economizer",
          "building_use",
          "occupied_from",
          "occupied_to",
          "occupied_days",
          "idle_months",
          "target_cycles",
          "conductivity_setpoint_us_cm",
          "blowdown_control",
          "drift_percent",
          "level_control",
          "level_sensor_outside",
          "makeup_line_in",
          "makeup_line_mm",
          "fill_valve_cv",
          "fill_valve_kv",
          "fill_valve_max_psi",
          "fill_valve_max_kpa",
          "regulator_set_psi",
          "regulator_set_kpa");

  private final List<String> assumptions = new ArrayList<>();

  /** What was assumed, in words. */
  List<String> assumptions() {
    return List.copyOf(assumptions);
  }

  /** Kind of the tower; open where it is not told. */
  static TowerKind kind(RequestFields design) {
    SystemKind kind = choice(SystemKind.class, design, "kind");
    if (kind == null) {
      return TowerKind.OPEN;
    }
    return switch (kind) {
      case OPEN -> TowerKind.OPEN;
      case CLOSED_CIRCUIT -> TowerKind.CLOSED_CIRCUIT;
      case EVAPORATIVE_CONDENSER -> TowerKind.EVAPORATIVE_CONDENSER;
      case HYBRID -> TowerKind.HYBRID;
    };
  }

  /**
   * The tower for the model.
   *
   * @param design fields named as the columns of {@code towers.csv}
   * @param pressurePa air pressure of the place, at which the design point is taken to hold
   * @throws OutOfRangeException when the design point is impossible
   */
  TowerDesign of(RequestFields design, double pressurePa) {
    TowerKind kind = kind(design);
    FlowArrangement arrangement = choice(FlowArrangement.class, design, "flow_arrangement");
    FanControl fans = choice(FanControl.class, design, "fan_control");
    OptionalDouble cells = design.find("cells");
    OptionalDouble nominalKw = design.find("nominal_tons");
    OptionalDouble waterLS = design.find("design_water_flow_gpm");
    OptionalDouble hot = design.find("design_hot_water_f");
    OptionalDouble cold = design.find("design_cold_water_f");
    OptionalDouble wetBulb = design.find("design_wet_bulb_f");
    OptionalDouble dryBulb = design.find("design_dry_bulb_f");
    OptionalDouble airM3S = design.find("design_air_flow_cfm");
    design.ignore(List.of("cold_water_setpoint_f"));
    design.ignore(WITHOUT_MEANING);
    design.requireNothingElse();

    double coldC = coldWater(hot, cold, wetBulb);
    double rangeK = hot.isPresent() ? hot.getAsDouble() - coldC : range(nominalKw, waterLS);
    double wetBulbC =
        wetBulb.orElseGet(
            () ->
                assume(
                    "design wet bulb",
                    cold.isPresent() || hot.isPresent()
                        ? coldC - USUAL_APPROACH_K
                        : USUAL_WET_BULB_C));
    double waterKgS = water(nominalKw, waterLS, rangeK);
    double dryBulbC =
        dryBulb.orElseGet(() -> assume("design dry bulb", wetBulbC + USUAL_DEPRESSION_K));
    MoistAir air = MoistAir.fromWetBulb(dryBulbC, wetBulbC, pressurePa);
    DesignPoint point;
    if (airM3S.isPresent()) {
      double dryAir =
          OutOfRangeException.requirePositive(
                  "design air flow",
                  airM3S.getAsDouble(),
                  "m³/s",
                  "leave it out if it is not known")
              / air.specificVolumeM3PerKg();
      point = DesignPoint.withAirFlow(waterKgS, coldC + rangeK, coldC, air, dryAir);
    } else {
      assumptions.add(
          "air flow not told: %s kg of water per kg of dry air at design"
              .formatted(DesignPoint.USUAL_WATER_TO_AIR));
      point = DesignPoint.withUsualAirFlow(waterKgS, coldC + rangeK, coldC, air);
    }
    return new TowerDesign(
        kind,
        arrangement == FlowArrangement.CROSSFLOW
            ? towerledger.thermal.FlowArrangement.CROSSFLOW
            : towerledger.thermal.FlowArrangement.COUNTERFLOW,
        (int) Math.round(cells.orElse(1)),
        CellStaging.EVERY_CELL,
        fans(fans),
        USUAL_FILL_EXPONENT,
        point);
  }

  private double coldWater(OptionalDouble hot, OptionalDouble cold, OptionalDouble wetBulb) {
    if (cold.isPresent()) {
      return cold.getAsDouble();
    }
    if (wetBulb.isPresent()) {
      return assume("design cold water", wetBulb.getAsDouble() + USUAL_APPROACH_K);
    }
    return assume(
        "design cold water",
        hot.isPresent() ? hot.getAsDouble() - USUAL_RANGE_K : USUAL_COLD_WATER_C);
  }

  private double range(OptionalDouble nominalKw, OptionalDouble waterLS) {
    if (nominalKw.isPresent() && waterLS.isPresent() && waterLS.getAsDouble() > 0) {
      return nominalKw.getAsDouble()
          * 1000
          / (waterLS.getAsDouble() * DesignPoint.WATER_KG_PER_LITRE * WATER_HEAT_CAPACITY);
    }
    assumptions.add("design range not told: 10 °F");
    return USUAL_RANGE_K;
  }

  private double water(OptionalDouble nominalKw, OptionalDouble waterLS, double rangeK) {
    if (waterLS.isPresent()) {
      return waterLS.getAsDouble() * DesignPoint.WATER_KG_PER_LITRE;
    }
    if (nominalKw.isEmpty()) {
      throw new FieldProblem(
          "design needs 'nominal_tons' or 'design_water_flow_gpm' (or an SI twin) to tell the size"
              + " of the tower.");
    }
    assumptions.add("design water flow not told: taken from nominal tons and range");
    return nominalKw.getAsDouble() * 1000 / (WATER_HEAT_CAPACITY * rangeK);
  }

  private double assume(String what, double valueC) {
    assumptions.add("%s not told: %.1f °F".formatted(what, Units.fahrenheit(valueC)));
    return valueC;
  }

  private static towerledger.thermal.FanControl fans(@Nullable FanControl fans) {
    if (fans == null) {
      return towerledger.thermal.FanControl.VARIABLE_SPEED;
    }
    return switch (fans) {
      case SINGLE_SPEED -> towerledger.thermal.FanControl.SINGLE_SPEED;
      case TWO_SPEED -> towerledger.thermal.FanControl.TWO_SPEED;
      case VARIABLE_SPEED -> towerledger.thermal.FanControl.VARIABLE_SPEED;
    };
  }

  private static <E extends Enum<E> & Coded> @Nullable E choice(
      Class<E> choices, RequestFields fields, String name) {
    String code = fields.findText(name);
    if (code == null) {
      return null;
    }
    try {
      return Coded.parse(choices, name, code);
    } catch (IllegalArgumentException unknown) {
      throw new FieldProblem(String.valueOf(unknown.getMessage()) + ".");
    }
  }
}
