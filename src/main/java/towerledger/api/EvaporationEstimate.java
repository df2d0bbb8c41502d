package towerledger.api;

import com.fasterxml.jackson.annotation.JsonProperty;
import io.swagger.v3.oas.annotations.media.Schema;
import java.util.List;
import java.util.Locale;
import java.util.Map;
import org.jspecify.annotations.Nullable;
import towerledger.psychrometrics.MoistAir;
import towerledger.psychrometrics.StandardAtmosphere;
import towerledger.quantity.OutOfRangeException;
import towerledger.quantity.Units;
import towerledger.thermal.DesignPoint;
import towerledger.thermal.OperatingPoint;
import towerledger.thermal.TowerDesign;
import towerledger.thermal.TowerKind;
import towerledger.thermal.WetTower;

/** Evaporation of a tower in one state, from the fields of a request to those of the answer. */
final class EvaporationEstimate {

  private static final String[] MEASURED = {"hot_water_f", "cold_water_f", "air_flow_cfm"};
  private static final String[] CALCULATED = {
    "heat_rejected_mmbtu_per_hour", "cold_water_setpoint_f"
  };

  private EvaporationEstimate() {}

  /**
   * The answer, in US units.
   *
   * @param evaporationGalPerHour water evaporated
   * @param coldWaterF water leaving the tower
   * @param hotWaterF water entering it
   * @param leavingAirDryBulbF temperature of the leaving air
   * @param leavingHumidityRatio water in the leaving air, vapour and fog, per dry air
   * @param latentShare latent heat of the evaporation over the heat the air takes up
   * @param method how it was computed
   * @param regime what the fans do
   * @param airFlowShare air over full air
   * @param uncertaintyPercent one standard deviation of the tower model, percent of evaporation
   * @param assumptions what was assumed because it was not told
   */
  @Schema(name = "EvaporationAnswer")
  record Answer(
      @JsonProperty("evaporation_gal_per_hour") double evaporationGalPerHour,
      @JsonProperty("cold_water_f") double coldWaterF,
      @JsonProperty("hot_water_f") double hotWaterF,
      @JsonProperty("leaving_air_dry_bulb_f") double leavingAirDryBulbF,
      @JsonProperty("leaving_humidity_ratio") double leavingHumidityRatio,
      @JsonProperty("latent_share") double latentShare,
      @JsonProperty("method") String method,
      @JsonProperty("regime") String regime,
      @JsonProperty("air_flow_share") double airFlowShare,
      @JsonProperty("uncertainty_percent") double uncertaintyPercent,
      @JsonProperty("assumptions") List<String> assumptions) {}

  /**
   * Computes it.
   *
   * @param design columns of {@code towers.csv}
   * @param conditions weather and either heat, set-point and fan, or a measured state
   * @throws FieldProblem when a field is missing, doubled or unknown
   * @throws OutOfRangeException when a value is impossible
   */
  static Answer of(
      @Nullable Map<String, @Nullable Object> design,
      @Nullable Map<String, @Nullable Object> conditions) {
    RequestFields designFields = new RequestFields("design", design);
    RequestFields fields = new RequestFields("conditions", conditions);
    double pressurePa =
        fields.find("pressure_inhg").orElse(StandardAtmosphere.SEA_LEVEL_PA / 1000) * 1000;
    MoistAir air =
        MoistAir.fromWetBulb(
            fields.require("dry_bulb_f"), fields.require("wet_bulb_f"), pressurePa);
    boolean measured = fields.tellsAny(MEASURED);
    boolean calculated = fields.tellsAny(CALCULATED) || fields.findText("fan") != null;
    if (measured && calculated) {
      throw new FieldProblem(
          "conditions mixes a measured state (hot_water_f, cold_water_f, water_flow_gpm,"
              + " air_flow_cfm) with heat, set-point or fan; give one or the other.");
    }
    return measured ? measured(designFields, fields, air) : calculated(designFields, fields, air);
  }

  private static Answer measured(RequestFields design, RequestFields fields, MoistAir air) {
    TowerKind kind = EstimateDesign.kind(design);
    if (kind != TowerKind.OPEN) {
      throw new FieldProblem(
          "a measured state can be worked out for open towers only: in a coil tower the water on"
              + " the coil has a temperature of its own; give heat and set-point instead.");
    }
    double hotC = fields.require("hot_water_f");
    double coldC = fields.require("cold_water_f");
    double waterKgS = fields.require("water_flow_gpm") * DesignPoint.WATER_KG_PER_LITRE;
    double airM3S =
        OutOfRangeException.requirePositive(
            "air flow", fields.require("air_flow_cfm"), "m³/s", "give the air through the tower");
    fields.requireNothingElse();
    OperatingPoint point =
        WetTower.measured(hotC, coldC, waterKgS, airM3S / air.specificVolumeM3PerKg(), air);
    return answer(point, "Poppe, measured state", 0.03, List.of());
  }

  private static Answer calculated(RequestFields designFields, RequestFields fields, MoistAir air) {
    EstimateDesign reader = new EstimateDesign();
    TowerDesign design = reader.of(designFields, air.pressurePa());
    double heatW = fields.require("heat_rejected_mmbtu_per_hour") * 1e9 / 3600;
    double waterKgS =
        fields.find("water_flow_gpm").isPresent()
            ? fields.require("water_flow_gpm") * DesignPoint.WATER_KG_PER_LITRE
            : design.point().waterFlowKgS();
    String fan = fields.findText("fan");
    boolean full = fan != null && fan.toLowerCase(Locale.ROOT).equals("full");
    if (fan != null && !full && !fan.toLowerCase(Locale.ROOT).equals("controlled")) {
      throw new FieldProblem(
          "conditions gives '%s' for 'fan'; use controlled or full.".formatted(fan));
    }
    WetTower tower = WetTower.of(design);
    OperatingPoint point;
    if (full) {
      fields.find("cold_water_setpoint_f");
      fields.requireNothingElse();
      point = tower.fullAir(heatW, waterKgS, air);
    } else {
      double setPointC = fields.require("cold_water_setpoint_f");
      fields.requireNothingElse();
      WetTower.requireAboveWetBulb("cold-water set-point", setPointC, air);
      point = tower.controlled(heatW, waterKgS, air, setPointC);
    }
    String method =
        design.kind() == TowerKind.OPEN
            ? "Poppe, Merkel number fitted to the design point"
            : "wetted coil at one film temperature, fitted to the design point";
    return answer(point, method, design.evaporationUncertainty(), reader.assumptions());
  }

  private static Answer answer(
      OperatingPoint point, String method, double uncertainty, List<String> assumptions) {
    return new Answer(
        point.evaporationLitresPerHour() / Units.LITRES_PER_US_GALLON,
        Units.fahrenheit(point.coldWaterC()),
        Units.fahrenheit(point.hotWaterC()),
        Units.fahrenheit(point.leavingAirC()),
        point.leavingHumidityRatio(),
        point.latentShare(),
        method,
        point.regime().name().toLowerCase(Locale.ROOT).replace('_', '-'),
        point.airFlowShare(),
        100 * uncertainty,
        assumptions);
  }
}
