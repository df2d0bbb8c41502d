package towerledger.api;

import static org.assertj.core.api.Assertions.assertThat;
import static org.assertj.core.api.Assertions.assertThatThrownBy;
import static org.assertj.core.api.Assertions.within;

import java.util.HashMap;
import java.util.Map;
import org.junit.jupiter.api.Test;
import towerledger.quantity.OutOfRangeException;

/** Estimates from the fields of a request to those of the answer. */
class EstimateTest {

  private static final Map<String, Object> DESIGN =
      Map.of(
          "nominal_tons", 100,
          "design_water_flow_gpm", 300,
          "design_hot_water_f", 95,
          "design_cold_water_f", 85,
          "design_wet_bulb_f", 78);

  private static Map<String, Object> conditions(Object... more) {
    Map<String, Object> fields = new HashMap<>();
    fields.put("dry_bulb_f", 85);
    fields.put("wet_bulb_f", 70);
    fields.put("pressure_inhg", 29.921);
    for (int i = 0; i < more.length; i += 2) {
      fields.put((String) more[i], more[i + 1]);
    }
    return fields;
  }

  /**
   * Common practice, no source: 1.3 gal per ton-hour in a marine climate to 1.8 in a hot-dry one,
   * per ton of refrigeration; 1.5 MMBtu/h of rejected heat are 100 such tons.
   */
  @Test
  void aHundredTonsEvaporateWhatTheTradeExpects() {
    EvaporationEstimate.Answer answer =
        EvaporationEstimate.of(
            DESIGN, conditions("heat_rejected_mmbtu_per_hour", 1.2, "cold_water_setpoint_f", 80));
    assertThat(answer.evaporationGalPerHour() / 80).isBetween(1.3, 1.8);
    assertThat(answer.coldWaterF()).isCloseTo(80, within(1e-6));
    assertThat(answer.hotWaterF()).isCloseTo(88, within(0.05));
    assertThat(answer.regime()).isEqualTo("set-point-held");
    assertThat(answer.method()).contains("Poppe");
    assertThat(answer.assumptions()).anyMatch(a -> a.contains("air flow"));
  }

  /** SI twins give the same answer as the US columns. */
  @Test
  void siTwinsGiveTheSameAnswer() {
    EvaporationEstimate.Answer us =
        EvaporationEstimate.of(
            DESIGN, conditions("heat_rejected_mmbtu_per_hour", 1.2, "cold_water_setpoint_f", 80));
    EvaporationEstimate.Answer si =
        EvaporationEstimate.of(
            Map.of(
                "design_water_flow_l_s", 18.927058919,
                "design_hot_water_c", 35,
                "design_cold_water_c", 29.4444444444,
                "design_wet_bulb_c", 25.5555555556),
            Map.of(
                "dry_bulb_c", 29.4444444444,
                "wet_bulb_c", 21.1111111111,
                "pressure_kpa", 101.324145,
                "heat_rejected_gj_per_hour", 1.266067023,
                "cold_water_setpoint_c", 26.6666666667,
                "fan", "controlled"));
    assertThat(si.evaporationGalPerHour())
        .isCloseTo(us.evaporationGalPerHour(), within(1e-4 * us.evaporationGalPerHour()));
  }

  /** Kloppers (2003), appendix G, in US units: 0.06277 kg/s evaporate; ASHRAE properties, 0.6 %. */
  @Test
  void measuredStateMeetsThePublishedPoint() {
    EvaporationEstimate.Answer answer =
        EvaporationEstimate.of(
            null,
            Map.of(
                "dry_bulb_c", 9.7,
                "wet_bulb_c", 8.23,
                "pressure_kpa", 101.71227,
                "hot_water_c", 39.67,
                "cold_water_c", 27.77,
                "water_flow_l_s", 3.999 / 0.997,
                // 4.134 kg/s of dry air at 9.7 °C and 0.00616 kg/kg
                "air_flow_m3_s",
                    4.134 * 287.042 * 282.85 * (1 + 1.607858 * 0.0061634) / 101_712.27));
    double kgPerSecond = answer.evaporationGalPerHour() * 3.785411784 * 0.997 / 3600;
    assertThat(kgPerSecond).isCloseTo(0.062768, within(0.006 * 0.062768));
    assertThat(answer.leavingHumidityRatio()).isCloseTo(0.021347, within(0.006 * 0.021347));
    assertThat(answer.leavingAirDryBulbF()).isCloseTo(24.698 * 1.8 + 32, within(0.2));
    assertThat(answer.latentShare()).isCloseTo(0.7357, within(0.006));
  }

  @Test
  void fullFanFloats() {
    EvaporationEstimate.Answer answer =
        EvaporationEstimate.of(
            DESIGN, conditions("heat_rejected_mmbtu_per_hour", 1.2, "fan", "full"));
    assertThat(answer.regime()).isEqualTo("full-air");
    assertThat(answer.coldWaterF()).isBetween(70.5, 79.0);
  }

  @Test
  void refusalsNameTheFieldAndTheRemedy() {
    assertThatThrownBy(() -> EvaporationEstimate.of(DESIGN, Map.of("dry_bulb_f", 85)))
        .isInstanceOf(FieldProblem.class)
        .hasMessageContaining("conditions needs 'wet_bulb_f'");
    assertThatThrownBy(
            () -> EvaporationEstimate.of(DESIGN, conditions("dry_bulb_c", 20, "fan", "full")))
        .isInstanceOf(FieldProblem.class)
        .hasMessageContaining("both 'dry_bulb_f' and 'dry_bulb_c'");
    assertThatThrownBy(
            () ->
                EvaporationEstimate.of(
                    Map.of("nominal_tons", 100, "design_hot_watre_f", 95),
                    conditions("heat_rejected_mmbtu_per_hour", 1.2, "cold_water_setpoint_f", 80)))
        .isInstanceOf(FieldProblem.class)
        .hasMessageContaining("design_hot_watre_f");
    assertThatThrownBy(
            () ->
                EvaporationEstimate.of(
                    DESIGN,
                    conditions("heat_rejected_mmbtu_per_hour", 1.2, "cold_water_setpoint_f", 65)))
        .isInstanceOf(OutOfRangeException.class)
        .hasMessageContaining(
            "cold-water set-point of 18.3333 °C (65 °F) must be above the wet bulb");
    assertThatThrownBy(
            () ->
                EvaporationEstimate.of(
                    DESIGN, conditions("heat_rejected_mmbtu_per_hour", 1.2, "hot_water_f", 95)))
        .isInstanceOf(FieldProblem.class)
        .hasMessageContaining("give one or the other");
    assertThatThrownBy(
            () ->
                EvaporationEstimate.of(
                    DESIGN,
                    conditions(
                        "heat_rejected_mmbtu_per_hour", 1.2,
                        "cold_water_setpoint_f", 80,
                        "water_flow_gpm", 0)))
        .isInstanceOf(OutOfRangeException.class)
        .hasMessageContaining("water flow of 0 kg/s must be above zero");
    assertThatThrownBy(
            () ->
                EvaporationEstimate.of(
                    Map.of("design_water_flow_gpm", 300, "kind", "wet"),
                    conditions("heat_rejected_mmbtu_per_hour", 1.2, "cold_water_setpoint_f", 80)))
        .isInstanceOf(FieldProblem.class)
        .hasMessageContaining("closed-circuit");
  }

  /** ASHRAE Fundamentals (2017), chapter 1, example 1, inch-pound: 100 °F, 65 °F wet bulb. */
  @Test
  void moistAirMeetsThePublishedExample() {
    PsychrometricEstimate.Answer answer =
        PsychrometricEstimate.of(
            Map.of("dry_bulb_f", 100, "wet_bulb_f", 65, "pressure_inhg", 29.921));
    assertThat(answer.humidityRatio()).isCloseTo(0.00523, within(1e-4));
    assertThat(answer.enthalpyBtuPerLb()).isCloseTo(29.8, within(0.1));
    assertThat(answer.wetBulbF()).isCloseTo(65, within(1e-4));
  }

  @Test
  void moistAirNeedsExactlyOneHumidity() {
    assertThatThrownBy(() -> PsychrometricEstimate.of(Map.of("dry_bulb_f", 70)))
        .isInstanceOf(FieldProblem.class)
        .hasMessageContaining("exactly one of");
    assertThatThrownBy(
            () ->
                PsychrometricEstimate.of(
                    Map.of("dry_bulb_f", 70, "relative_humidity_percent", 120)))
        .isInstanceOf(OutOfRangeException.class)
        .hasMessageContaining("relative humidity of 120 % must lie between 0 % and 100 %");
  }
}
