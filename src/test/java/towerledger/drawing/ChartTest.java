package towerledger.drawing;

import static org.assertj.core.api.Assertions.assertThat;
import static org.assertj.core.api.Assertions.within;

import java.util.List;
import java.util.Map;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.CsvSource;

class ChartTest {

  @ParameterizedTest
  @CsvSource({
    "0, 412, 4, 0, 500, 100",
    "0, 9.7, 4, 0, 10, 2",
    "-37, 118, 4, -50, 150, 50",
    "0, 0, 4, 0, 1, 0.2"
  })
  void axisEndsOnRoundTicksThatHoldTheValues(
      double least, double most, int steps, double low, double high, double step) {
    Scale scale = Scale.holding(least, most, steps);

    assertThat(scale.low()).isLessThanOrEqualTo(least).isCloseTo(low, within(1e-9));
    assertThat(scale.high()).isGreaterThanOrEqualTo(most).isCloseTo(high, within(1e-9));
    assertThat(scale.step()).isCloseTo(step, within(1e-9));
  }

  @Test
  void leavesAGapWhereAValueIsUnknown() {
    String svg =
        Chart.over(List.of("J", "F", "M", "A"))
            .with(new Layer.Line(Series.of(3, Double.NaN, 5, 6), Tone.INK, false))
            .draw(Medium.PAPER, "Cycles", "");

    String line = svg.substring(svg.indexOf("stroke-width=\"1.6\"") - 80);
    assertThat(line.split("M", -1).length - 1).as("moves: one a stretch").isGreaterThanOrEqualTo(2);
    assertThat(svg).doesNotContain("NaN");
  }

  @Test
  void runningTotalSkipsTheUnknown() {
    Series running = Series.of(1, Double.NaN, 2).running();

    assertThat(running.value(0)).isEqualTo(1);
    assertThat(running.isKnown(1)).isFalse();
    assertThat(running.value(2)).isEqualTo(3);
  }

  @Test
  void stacksNegativePartsBelowZero() {
    double[] range =
        ChartLayers.range(
            new Layer.Stack(
                Map.of(
                    WaterPart.EVAPORATION, Series.of(5, 6),
                    WaterPart.FRESH_LOSS, Series.of(2, Double.NaN),
                    WaterPart.STORAGE_CHANGE, Series.of(-1, -3))));

    assertThat(range).containsExactly(-3, 7);
  }
}
