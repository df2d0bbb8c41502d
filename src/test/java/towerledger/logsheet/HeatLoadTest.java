package towerledger.logsheet;

import static org.assertj.core.api.Assertions.assertThat;
import static org.assertj.core.api.Assertions.assertThatThrownBy;

import java.time.Instant;
import java.util.OptionalDouble;
import org.junit.jupiter.api.Test;
import towerledger.balance.facts.HeatEvidence;
import towerledger.quantity.Span;

/** Sensors disagree by some tenths of a kelvin, which shows when the tower stands. */
class HeatLoadTest {

  private static final OptionalDouble NONE = OptionalDouble.empty();

  @Test
  void hotWaterALittleBelowColdGaveOffNoHeat() {
    HeatEvidence.WaterTemperatures idle = temperatures(23.8, 24.1, 30);
    assertThat(idle.hotC()).isEqualTo(idle.coldC()).isEqualTo(24.1);
  }

  @Test
  void nothingThatStandsGivesOffHeatWhateverItsSensorsRead() {
    assertThat(temperatures(18, 24, 0).hotC()).isEqualTo(24);
  }

  @Test
  void aRangeTurnedAroundIsNotTakenForSensors() {
    assertThatThrownBy(() -> temperatures(29.4, 35, 30))
        .isInstanceOf(IllegalArgumentException.class)
        .hasMessageContaining("range of hot over cold water");
    assertThat(temperatures(35, 29.4, 30).hotC()).isEqualTo(35);
  }

  private static HeatEvidence.WaterTemperatures temperatures(double hot, double cold, double flow) {
    Instant start = Instant.parse("2025-07-01T12:00:00Z");
    return (HeatEvidence.WaterTemperatures)
        new HeatLoad(
                Span.of(start, start.plusSeconds(3600)),
                NONE,
                NONE,
                NONE,
                NONE,
                NONE,
                NONE,
                OptionalDouble.of(hot),
                OptionalDouble.of(cold),
                OptionalDouble.of(flow),
                NONE)
            .evidence();
  }
}
