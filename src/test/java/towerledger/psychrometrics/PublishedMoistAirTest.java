package towerledger.psychrometrics;

import static org.assertj.core.api.Assertions.assertThat;
import static org.assertj.core.api.Assertions.within;

import com.hummeling.if97.IF97;
import java.util.HashMap;
import java.util.Map;
import org.assertj.core.data.Offset;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.CsvFileSource;
import org.junit.jupiter.params.provider.CsvSource;
import towerledger.quantity.Units;

/** Moist air against what others published; the source stands at every check. */
class PublishedMoistAirTest {

  private static final double FOOT3_PER_LB = 0.028316846592 / 0.45359237;
  private static final double JOULES_PER_BTU_PER_LB = 2326;

  /**
   * The test values of psychrolib 2.5.0, which quotes ASHRAE Fundamentals (2017), chapter 1, tables
   * 1 to 3 and its examples. The tolerance is the file's, from the precision of the printed tables.
   */
  @ParameterizedTest(name = "{0} {1} at {2}")
  @CsvFileSource(resources = "/reference/psychro_checks.csv", numLinesToSkip = 2)
  void meetsPublishedValue(
      String units,
      String quantity,
      String inputs,
      double expected,
      double tolerance,
      String kind) {
    Map<String, Double> in = inputs(inputs);
    double actual = "IP".equals(units) ? inchPound(quantity, in) : si(quantity, in);
    double allowed = "rel".equals(kind) ? Math.abs(expected) * tolerance : tolerance;
    assertThat(actual).isCloseTo(expected, within(allowed));
  }

  private static double si(String quantity, Map<String, Double> in) {
    double t = in.getOrDefault("T", Double.NaN);
    double p = in.getOrDefault("P", StandardAtmosphere.SEA_LEVEL_PA);
    return switch (quantity) {
      case "SatVapPres_Pa" -> SaturationPressure.pascals(t);
      case "SatHumRatio_kg/kg" -> HumidityRatio.saturated(t, p);
      case "SatAirEnthalpy_J/kg" ->
          new MoistAir(t, HumidityRatio.saturated(t, p), p).enthalpyJPerKg();
      case "VapPresFromRelHum_Pa" ->
          MoistAir.fromRelativeHumidity(in.get("Tdb"), in.get("RH"), p).vapourPressurePa();
      case "HumRatioFromVapPres" -> HumidityRatio.ofVapourPressure(in.get("pv"), p);
      case "HumRatioFromTWetBulb", "Example1 HumRatio" ->
          HumidityRatio.fromWetBulb(in.get("Tdb"), in.get("Twb"), p);
      case "TWetBulbFromHumRatio_C" -> WetBulb.fromHumidityRatio(in.get("Tdb"), in.get("W"), p);
      case "TWetBulbFromRelHum_C" ->
          MoistAir.fromRelativeHumidity(in.get("Tdb"), in.get("RH"), p).wetBulbC();
      case "DryAirEnthalpy_J/kg" -> MoistAir.enthalpyJPerKg(t, 0);
      case "MoistAirEnthalpy_J/kg" -> MoistAir.enthalpyJPerKg(t, in.get("W"));
      case "DryAirVolume_m3/kg" -> new MoistAir(t, 0, p).specificVolumeM3PerKg();
      case "MoistAirVolume_m3/kg" -> new MoistAir(t, in.get("W"), p).specificVolumeM3PerKg();
      case "MoistAirDensity_kg/m3" -> new MoistAir(t, in.get("W"), p).densityKgPerM3();
      case "StdAtmPressure_Pa" -> StandardAtmosphere.pressurePa(in.get("z"));
      case "SeaLevelPressure_Pa" ->
          StandardAtmosphere.seaLevelPressurePa(in.get("Pstation"), in.get("z"), t);
      case "Example1 RH" -> example(in, p).relativeHumidity();
      case "Example1 enthalpy J/kg" -> example(in, p).enthalpyJPerKg();
      case "Example1 volume" -> example(in, p).specificVolumeM3PerKg();
      case "Example1 dewpoint C" -> example(in, p).dewPointC();
      default -> throw new IllegalArgumentException(quantity);
    };
  }

  private static double inchPound(String quantity, Map<String, Double> in) {
    double f = in.getOrDefault("T", Double.NaN);
    double t = Units.celsius(f);
    double psi = in.getOrDefault("P", 14.696);
    double p = psi * Units.PASCALS_PER_PSI;
    return switch (quantity) {
      case "SatVapPres_psi" -> SaturationPressure.pascals(t) / Units.PASCALS_PER_PSI;
      case "SatHumRatio" -> HumidityRatio.saturated(t, p);
      case "SatAirEnthalpy_Btu/lb" ->
          InchPoundEquations.enthalpyBtuPerLb(f, HumidityRatio.saturated(t, p));
      case "HumRatioFromVapPres" ->
          HumidityRatio.ofVapourPressure(in.get("pv") * Units.PASCALS_PER_PSI, p);
      case "HumRatioFromTWetBulb", "Example1 HumRatio" ->
          InchPoundEquations.humidityRatio(in.get("Tdb"), in.get("Twb"), psi);
      case "MoistAirEnthalpy_Btu/lb" -> InchPoundEquations.enthalpyBtuPerLb(f, in.get("W"));
      case "MoistAirVolume_ft3/lb" ->
          new MoistAir(t, in.get("W"), p).specificVolumeM3PerKg() / FOOT3_PER_LB;
      case "MoistAirDensity_lb/ft3" ->
          new MoistAir(t, in.get("W"), p).densityKgPerM3() * FOOT3_PER_LB;
      case "StdAtmPressure_psi" ->
          StandardAtmosphere.pressurePa(in.get("z") * Units.METRES_PER_FOOT)
              / Units.PASCALS_PER_PSI;
      case "Example1 enthalpy" ->
          InchPoundEquations.enthalpyBtuPerLb(
              in.get("Tdb"), InchPoundEquations.humidityRatio(in.get("Tdb"), in.get("Twb"), psi));
      default -> throw new IllegalArgumentException(quantity);
    };
  }

  /**
   * The SI forms against the inch-pound forms of the same chapter, whose constants are rounded on
   * their own: they stay within 0.000012 kg/kg and 60 J/kg of each other.
   */
  @ParameterizedTest
  @CsvSource({"86, 77, 14.175", "100, 65, 14.696", "30.2, 23, 14.175", "60, 50, 12", "10, 8, 14.7"})
  void siFormsMeetInchPoundForms(double dryBulbF, double wetBulbF, double psi) {
    MoistAir air =
        MoistAir.fromWetBulb(
            Units.celsius(dryBulbF), Units.celsius(wetBulbF), psi * Units.PASCALS_PER_PSI);
    double humidityRatio = InchPoundEquations.humidityRatio(dryBulbF, wetBulbF, psi);
    assertThat(air.humidityRatio()).isCloseTo(humidityRatio, within(1.2e-5));
    assertThat(MoistAir.enthalpyJPerKg(air.dryBulbC(), humidityRatio))
        .isCloseTo(
            (InchPoundEquations.enthalpyBtuPerLb(dryBulbF, humidityRatio) - 0.240 * 32)
                * JOULES_PER_BTU_PER_LB,
            within(60.0));
  }

  private static MoistAir example(Map<String, Double> in, double pressurePa) {
    return MoistAir.fromWetBulb(in.get("Tdb"), in.get("Twb"), pressurePa);
  }

  private static Map<String, Double> inputs(String text) {
    Map<String, Double> inputs = new HashMap<>();
    for (String part : text.split(",")) {
      String[] sides = part.split("=");
      inputs.put(sides[0].strip(), Double.valueOf(sides[1].replaceFirst("(C|F|m|ft)$", "")));
    }
    return inputs;
  }

  /**
   * 500 random states computed by the npm package psychrolib 1.1.1 (MIT); the script that made the
   * table is committed beside it. Its wet and dew points are iterated to 0.001 K only.
   */
  @ParameterizedTest(name = "{0} °C, {1}, {2} Pa")
  @CsvFileSource(resources = "/reference/psychrolib_states.csv", numLinesToSkip = 3)
  void meetsTheReferenceLibrary(
      double dryBulbC,
      double relativeHumidity,
      double pressurePa,
      double humidityRatio,
      double wetBulbC,
      double dewPointC,
      double enthalpyJPerKg,
      double volumeM3PerKg,
      double humidityRatioFromWetBulb) {
    MoistAir air = MoistAir.fromRelativeHumidity(dryBulbC, relativeHumidity, pressurePa);
    assertThat(air.humidityRatio()).isCloseTo(humidityRatio, relative(1e-4, humidityRatio));
    if (wetBulbC < 0 && air.wetBulbC() >= 0) {
      // The gap between the two wet-bulb equations at 0 °C: both answers put back the same humidity
      // ratio (checked below); the library took the one over ice, we take the one over water.
      assertThat(air.wetBulbC() - wetBulbC).isLessThan(0.5);
      assertThat(HumidityRatio.fromWetBulb(dryBulbC, air.wetBulbC(), pressurePa))
          .isCloseTo(humidityRatio, relative(1e-4, humidityRatio));
      assertThat(humidityRatioFromWetBulb).isCloseTo(humidityRatio, relative(2e-4, humidityRatio));
    } else {
      assertThat(air.wetBulbC()).isCloseTo(wetBulbC, within(0.003));
    }
    assertThat(air.dewPointC()).isCloseTo(dewPointC, within(0.003));
    assertThat(air.enthalpyJPerKg()).isCloseTo(enthalpyJPerKg, within(0.5));
    assertThat(air.specificVolumeM3PerKg()).isCloseTo(volumeM3PerKg, relative(1e-6, volumeM3PerKg));
    assertThat(HumidityRatio.fromWetBulb(dryBulbC, Math.min(wetBulbC, dryBulbC), pressurePa))
        .isCloseTo(humidityRatioFromWetBulb, relative(1e-4, humidityRatioFromWetBulb));
  }

  private static Offset<Double> relative(double share, double of) {
    return within(share * Math.abs(of));
  }

  /**
   * IAPWS Industrial Formulation 1997 as coded in com.hummeling:if97. ASHRAE's equation 6 is from
   * Hyland and Wexler (1983); the two agree to 0.1 % from 0 to 100 °C and to 0.05 % at tower
   * temperatures.
   */
  @Test
  void saturationPressureOverWaterMeetsTheSteamTables() {
    IF97 steam = new IF97(IF97.UnitSystem.SI);
    for (double t = 0.5; t <= 100; t += 0.5) {
      double steamTable = steam.saturationPressureT(t + 273.15);
      assertThat(SaturationPressure.overWaterPa(t))
          .as("saturation pressure at %s °C", t)
          .isCloseTo(steamTable, relative(t >= 5 && t <= 50 ? 5e-4 : 1e-3, steamTable));
    }
  }

  /** The two wet-bulb equations of ASHRAE ch. 1 put back what they were given. */
  @ParameterizedTest
  @CsvSource({
    "40, 20",
    "48, 18",
    "25, 25",
    "10, 0.0",
    "4, -3",
    "-15, -17",
    "0.5, 0.2",
    "-25, -25.1"
  })
  void wetBulbComesBack(double dryBulbC, double wetBulbC) {
    double humidityRatio = HumidityRatio.fromWetBulb(dryBulbC, wetBulbC, 95_000);
    assertThat(WetBulb.fromHumidityRatio(dryBulbC, humidityRatio, 95_000))
        .isCloseTo(wetBulbC, within(1e-6));
  }
}
