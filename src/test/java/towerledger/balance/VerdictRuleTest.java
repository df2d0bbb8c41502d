package towerledger.balance;

import static org.assertj.core.api.Assertions.assertThat;

import java.util.List;
import java.util.Map;
import org.junit.jupiter.api.Test;

class VerdictRuleTest {

  private static final double[] NONE = {};

  private static final VerdictRule RULE =
      new VerdictRule(
          ReconciliationPolicy.standard(),
          List.of(),
          new LossEstimate(
              List.of(),
              new LackedWater(NONE, NONE, NONE, NONE, NONE, NONE),
              NONE,
              List.of(),
              new MonthFrame(List.of(), new double[0][])),
          100_000);

  private static final VerdictRule.Measure MEASURE =
      new VerdictRule.Measure(100_000, 0, EvidenceGrade.A, false, true);

  /** A flag needs evidence and size: 3 % of the makeup by default. */
  @Test
  void monthThatStraysLessThanTheLeastLossIsNotFlaggedWhateverTheCause() {
    assertThat(RULE.sized(Cause.FILL_VALVE_SHUT, 0, MEASURE)).isFalse();
    assertThat(RULE.sized(Cause.CONDUCTIVITY_ERROR, 2_900, MEASURE)).isFalse();
    assertThat(RULE.sized(Cause.MAKEUP_METER_ERROR, -3_100, MEASURE)).isTrue();
  }

  @Test
  void monthThatDrewNothingAndNeededNothingIsNotFlagged() {
    VerdictRule.Measure still =
        new VerdictRule.Measure(0, Double.NaN, EvidenceGrade.B, false, true);

    assertThat(RULE.sized(Cause.FILL_VALVE_SHUT, 0, still)).isFalse();
  }

  /** Where nobody holds the concentration it strays by itself: odds count for less there. */
  @Test
  void basinWithoutAControllerNeedsBetterOddsOfWaste() {
    VerdictRule.Measure byHand = new VerdictRule.Measure(100_000, 0, EvidenceGrade.A, false, false);

    assertThat(byHand.limit()).isGreaterThan(MEASURE.limit());
  }

  /** Odds are taken with reserve: nine to one is no single name, ninety-nine to one is. */
  @Test
  void setNamesASecondCauseUnlessTheOddsAreOverwhelming() {
    assertThat(VerdictRule.set(odds(0.9, 0.1), true))
        .containsExactly(Cause.BASIN_LEAK, Cause.LEVEL_SET_HIGH);
    assertThat(VerdictRule.set(odds(0.99, 0.01), true)).containsExactly(Cause.BASIN_LEAK);
  }

  private static List<Map.Entry<Cause, Double>> odds(double leak, double level) {
    return List.of(Map.entry(Cause.BASIN_LEAK, leak), Map.entry(Cause.LEVEL_SET_HIGH, level));
  }

  @Test
  void wrongBleedMeterIsMeasuredByTheBleed() {
    assertThat(RULE.sized(Cause.BLOWDOWN_METER_ERROR, 0, MEASURE)).isTrue();
  }
}
