package towerledger.psychrometrics;

import static org.assertj.core.api.Assertions.assertThat;
import static org.assertj.core.api.Assertions.assertThatThrownBy;
import static org.assertj.core.api.Assertions.within;

import java.util.Random;
import org.junit.jupiter.api.Test;
import towerledger.quantity.OutOfRangeException;

class MoistAirTest {

  @Test
  void refusesWetBulbAboveDryBulbNamingBoth() {
    assertThatThrownBy(() -> MoistAir.fromWetBulb(20, 25, 101_325))
        .isInstanceOf(OutOfRangeException.class)
        .hasMessage(
            "wet bulb of 25 °C (77 °F) must not be above the dry bulb of 20 °C (68 °F); check whether"
                + " the two were exchanged");
  }

  @Test
  void refusesDewPointAboveDryBulb() {
    assertThatThrownBy(() -> MoistAir.fromDewPoint(20, 20.5, 101_325))
        .isInstanceOf(OutOfRangeException.class)
        .hasMessageContaining(
            "dew point of 20.5 °C (68.9 °F) must not be above the dry bulb of 20 °C (68 °F)");
  }

  @Test
  void refusesWetBulbThatNoAirCouldHave() {
    assertThatThrownBy(() -> MoistAir.fromWetBulb(40, 5, 101_325))
        .isInstanceOf(OutOfRangeException.class)
        .hasMessageContaining("even dry air has a higher one");
  }

  @Test
  void refusesRelativeHumidityInPercent() {
    assertThatThrownBy(() -> MoistAir.fromRelativeHumidity(20, 50, 101_325))
        .isInstanceOf(OutOfRangeException.class)
        .hasMessageContaining("relative humidity of 50 must lie between 0 and 1")
        .hasMessageContaining("not in percent");
  }

  @Test
  void refusesPressureThatIsNoAirPressure() {
    assertThatThrownBy(() -> MoistAir.fromWetBulb(20, 15, 1013))
        .isInstanceOf(OutOfRangeException.class)
        .hasMessageContaining("air pressure of 1013 Pa must lie between 10000 Pa and 200000 Pa");
  }

  @Test
  void refusesTemperaturesBeyondTheEquationsInsteadOfClamping() {
    assertThatThrownBy(() -> SaturationPressure.pascals(-100.1))
        .isInstanceOf(OutOfRangeException.class)
        .hasMessageContaining(
            "-100.1 °C (-148.18 °F) must lie between -100 °C (-148 °F) and 200 °C (392 °F)");
    assertThatThrownBy(() -> MoistAir.fromWetBulb(Double.NaN, 10, 101_325))
        .isInstanceOf(OutOfRangeException.class);
  }

  @Test
  void refusesMoreVapourThanAirCanHold() {
    assertThatThrownBy(() -> new MoistAir(20, 0.02, 101_325))
        .isInstanceOf(OutOfRangeException.class)
        .hasMessageContaining("humidity ratio of 0.02 kg/kg must lie between zero and saturation");
  }

  /** Dew point ≤ wet bulb ≤ dry bulb, and the three ways in give the same air. */
  @Test
  void threeWaysInGiveTheSameAir() {
    Random random = new Random(11);
    for (int i = 0; i < 2000; i++) {
      double dryBulbC = -30 + 80 * random.nextDouble();
      double pressurePa = 65_000 + 45_000 * random.nextDouble();
      MoistAir air =
          MoistAir.fromRelativeHumidity(dryBulbC, 0.02 + 0.98 * random.nextDouble(), pressurePa);
      double wetBulbC = air.wetBulbC();
      double dewPointC = air.dewPointC();
      assertThat(wetBulbC).as("wet bulb of %s", air).isLessThanOrEqualTo(dryBulbC + 1e-7);
      // over ice the frost point, over a wet wick the wet bulb: both below the dry bulb
      assertThat(dewPointC).as("dew point of %s", air).isLessThanOrEqualTo(wetBulbC + 0.01);
      assertThat(
              MoistAir.fromWetBulb(dryBulbC, Math.min(wetBulbC, dryBulbC), pressurePa)
                  .humidityRatio())
          .isCloseTo(air.humidityRatio(), within(1e-8));
      assertThat(MoistAir.fromDewPoint(dryBulbC, dewPointC, pressurePa).humidityRatio())
          .isCloseTo(air.humidityRatio(), within(1e-9));
    }
  }
}
