package towerledger.balance;

import static org.assertj.core.api.Assertions.assertThat;

import java.util.List;
import org.junit.jupiter.api.Test;

class VerdictRuleTest {

  private static final VerdictRule RULE =
      new VerdictRule(
          ReconciliationPolicy.standard(),
          List.of(),
          new LossEstimate(List.of(), List.of(), new MonthFrame(List.of(), new double[0][])),
          100_000);

  private static final VerdictRule.Measure MEASURE =
      new VerdictRule.Measure(100_000, 0, EvidenceGrade.A, false);

  /** A flag needs evidence and size: 3 % of the makeup by default. */
  @Test
  void monthThatStraysLessThanTheLeastLossIsNotFlaggedWhateverTheCause() {
    assertThat(RULE.sized(Cause.FILL_VALVE_SHUT, 0, MEASURE)).isFalse();
    assertThat(RULE.sized(Cause.CONDUCTIVITY_ERROR, 2_900, MEASURE)).isFalse();
    assertThat(RULE.sized(Cause.MAKEUP_METER_ERROR, -3_100, MEASURE)).isTrue();
  }

  @Test
  void monthThatDrewNothingAndNeededNothingIsNotFlagged() {
    VerdictRule.Measure still = new VerdictRule.Measure(0, Double.NaN, EvidenceGrade.B, false);

    assertThat(RULE.sized(Cause.FILL_VALVE_SHUT, 0, still)).isFalse();
  }

  @Test
  void wrongBleedMeterIsMeasuredByTheBleed() {
    assertThat(RULE.sized(Cause.BLOWDOWN_METER_ERROR, 0, MEASURE)).isTrue();
  }
}
