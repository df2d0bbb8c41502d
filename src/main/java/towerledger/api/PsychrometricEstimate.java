package towerledger.api;

import com.fasterxml.jackson.annotation.JsonProperty;
import io.swagger.v3.oas.annotations.media.Schema;
import java.util.List;
import java.util.Map;
import java.util.OptionalDouble;
import org.jspecify.annotations.Nullable;
import towerledger.psychrometrics.MoistAir;
import towerledger.psychrometrics.StandardAtmosphere;
import towerledger.quantity.OutOfRangeException;
import towerledger.quantity.Units;

/** A state of moist air, from the fields of a request to those of the answer. */
final class PsychrometricEstimate {

  /** Joules per kg in one Btu(IT) per lb; exact. */
  private static final double JOULES_PER_BTU_PER_LB = 2326;

  /** Kilograms in a pound; exact. */
  private static final double KILOGRAMS_PER_POUND = 0.45359237;

  /** Names of the fields it asks for; the SI twins may stand for them. */
  static final List<String> FIELDS =
      List.of(
          "dry_bulb_f", "wet_bulb_f", "dew_point_f", "relative_humidity_percent", "pressure_inhg");

  private PsychrometricEstimate() {}

  /**
   * The answer, in US units; humidity ratios are mass per mass of dry air.
   *
   * @param dewPointF frost point below freezing; absent in air too dry to have one
   * @param enthalpyBtuPerLb per lb of dry air, counted from 0 °F for dry air and 32 °F for water,
   *     as US tables do
   * @param specificVolumeFt3PerLb per lb of dry air
   * @param densityLbPerFt3 of the mixture
   */
  @Schema(name = "MoistAirAnswer")
  record Answer(
      @JsonProperty("dry_bulb_f") double dryBulbF,
      @JsonProperty("wet_bulb_f") double wetBulbF,
      @JsonProperty("dew_point_f") @Nullable Double dewPointF,
      @JsonProperty("relative_humidity_percent") double relativeHumidityPercent,
      @JsonProperty("pressure_inhg") double pressureInhg,
      @JsonProperty("humidity_ratio") double humidityRatio,
      @JsonProperty("saturated_humidity_ratio") double saturatedHumidityRatio,
      @JsonProperty("vapor_pressure_psi") double vaporPressurePsi,
      @JsonProperty("enthalpy_btu_per_lb") double enthalpyBtuPerLb,
      @JsonProperty("specific_volume_ft3_per_lb") double specificVolumeFt3PerLb,
      @JsonProperty("density_lb_per_ft3") double densityLbPerFt3,
      @JsonProperty("method") String method) {}

  /**
   * Computes it.
   *
   * @param body dry bulb, one of wet bulb, dew point and relative humidity, and pressure
   * @throws FieldProblem when a field is missing, doubled or unknown
   * @throws OutOfRangeException when a value is impossible
   */
  static Answer of(@Nullable Map<String, @Nullable Object> body) {
    RequestFields fields = new RequestFields("the request", body);
    double pressurePa =
        fields.find("pressure_inhg").orElse(StandardAtmosphere.SEA_LEVEL_PA / 1000) * 1000;
    double dryBulbC = fields.require("dry_bulb_f");
    OptionalDouble wetBulb = fields.find("wet_bulb_f");
    OptionalDouble dewPoint = fields.find("dew_point_f");
    OptionalDouble humidity = fields.find("relative_humidity_percent");
    fields.requireNothingElse();
    int told =
        (wetBulb.isPresent() ? 1 : 0)
            + (dewPoint.isPresent() ? 1 : 0)
            + (humidity.isPresent() ? 1 : 0);
    if (told != 1) {
      throw new FieldProblem(
          "the request needs exactly one of 'wet_bulb_f', 'dew_point_f' and"
              + " 'relative_humidity_percent'; it gives %d.".formatted(told));
    }
    MoistAir air;
    if (wetBulb.isPresent()) {
      air = MoistAir.fromWetBulb(dryBulbC, wetBulb.getAsDouble(), pressurePa);
    } else if (dewPoint.isPresent()) {
      air = MoistAir.fromDewPoint(dryBulbC, dewPoint.getAsDouble(), pressurePa);
    } else {
      double percent =
          OutOfRangeException.requireWithin(
              "relative humidity",
              humidity.getAsDouble(),
              0,
              100,
              "%",
              "give it in percent of saturation");
      air = MoistAir.fromRelativeHumidity(dryBulbC, percent / 100, pressurePa);
    }
    return answer(air);
  }

  private static Answer answer(MoistAir air) {
    return new Answer(
        Units.fahrenheit(air.dryBulbC()),
        Units.fahrenheit(air.wetBulbC()),
        air.humidityRatio() < 1e-7 ? null : Units.fahrenheit(air.dewPointC()),
        100 * air.relativeHumidity(),
        air.pressurePa() / Units.PASCALS_PER_INCH_HG,
        air.humidityRatio(),
        air.saturatedHumidityRatio(),
        air.vapourPressurePa() / Units.PASCALS_PER_PSI,
        air.enthalpyJPerKg() / JOULES_PER_BTU_PER_LB + 0.240 * 32,
        air.specificVolumeM3PerKg() * 1000 / Units.LITRES_PER_CUBIC_FOOT * KILOGRAMS_PER_POUND,
        air.densityKgPerM3() * Units.LITRES_PER_CUBIC_FOOT / 1000 / KILOGRAMS_PER_POUND,
        "ASHRAE Fundamentals (2017), chapter 1");
  }
}
