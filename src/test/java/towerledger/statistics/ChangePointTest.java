package towerledger.statistics;

import static org.assertj.core.api.Assertions.assertThat;
import static org.assertj.core.api.Assertions.within;

import org.junit.jupiter.api.Test;

class ChangePointTest {

  @Test
  void findsWhereTheMeanShifts() {
    ChangePoint shift =
        ChangePoint.find(
            new double[] {1, -1, 0.5, -0.5, 4, 6, 5}, new double[] {1, 1, 1, 1, 1, 1, 1});

    assertThat(shift.index()).isEqualTo(4);
    assertThat(shift.before()).isCloseTo(0, within(1e-12));
    assertThat(shift.after()).isCloseTo(5, within(1e-12));
    // 25 × (4·3/7), the squared difference over its variance
    assertThat(shift.statistic()).isCloseTo(300.0 / 7, within(1e-12));
  }

  @Test
  void findsNoShiftInALevelSeries() {
    assertThat(ChangePoint.find(new double[] {2, 2, 2}, new double[] {1, 1, 1}).statistic())
        .isCloseTo(0, within(1e-12));
  }
}
