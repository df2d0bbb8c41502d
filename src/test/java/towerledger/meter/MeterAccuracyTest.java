package towerledger.meter;

import static org.assertj.core.api.Assertions.assertThat;
import static org.assertj.core.api.Assertions.within;

import org.junit.jupiter.api.Test;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.CsvSource;
import towerledger.balance.facts.IntervalVolumes;
import towerledger.quantity.Units;
import towerledger.site.MeterType;

class MeterAccuracyTest {

  /** Code of Maryland Regulations 20.70.06.03 (following AWWA): minimum and maximum test flows. */
  @ParameterizedTest
  @CsvSource({
    "15.875, 0.25, 20",
    "16, 0.25, 20",
    "19.05, 0.5, 30",
    "20, 0.5, 30",
    "25, 0.75, 50",
    "38.1, 1.5, 100",
    "40, 1.5, 100",
    "50, 2, 160",
    "50.8, 2, 160",
    "80, 4, 300",
    "76.2, 4, 300",
    "100, 7, 500",
    "150, 12, 1000"
  })
  void knowsTheTestFlowsOfNominalSizes(double sizeMm, double leastGpm, double greatestGpm) {
    var accuracy = MeterAccuracy.of(MeterType.DISPLACEMENT, sizeMm, null);

    assertThat(accuracy.leastFlowLitresPerSecond().getAsDouble() * 60 / Units.LITRES_PER_US_GALLON)
        .isCloseTo(leastGpm, within(1e-9));
    assertThat(
            accuracy.greatestFlowLitresPerSecond().getAsDouble() * 60 / Units.LITRES_PER_US_GALLON)
        .isCloseTo(greatestGpm, within(1e-9));
    assertThat(accuracy.fraction()).hasValue(0.015); // C700, quoted in US Navy MO-221
  }

  @Test
  void saysNothingOfSizesItDoesNotKnow() {
    assertThat(MeterAccuracy.of(MeterType.DISPLACEMENT, 33.0, null).leastFlowLitresPerSecond())
        .isEmpty();
    assertThat(MeterAccuracy.of(null, null, null).fraction()).isEmpty();
  }

  @Test
  void theMetersOwnClassGoesBeforeThatOfItsType() {
    assertThat(MeterAccuracy.of(MeterType.COMPOUND, 50.8, 0.5).fraction()).hasValue(0.005);
    assertThat(MeterAccuracy.of(MeterType.COMPOUND, 50.8, null).fraction()).hasValue(0.03);
  }

  @Test
  void boundsTheWaterThatMayHavePassedUncounted() {
    // 2-inch displacement: 2 US gpm. An idle hour hides up to 120 gal, an hour at 90 gal up to 30,
    // an hour at 600 gal none.
    double gal = Units.LITRES_PER_US_GALLON;
    var intervals =
        new IntervalVolumes(
            new long[] {0, 3600, 7200},
            new int[] {60, 60, 60},
            new float[] {0, (float) (90 * gal), (float) (600 * gal)});

    var most = MeterAccuracy.of(MeterType.DISPLACEMENT, 50.8, null).mostUncountedLitres(intervals);

    assertThat(most.getAsDouble() / gal).isCloseTo(150, within(1e-4));
  }
}
