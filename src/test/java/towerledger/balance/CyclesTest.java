package towerledger.balance;

import static org.assertj.core.api.Assertions.assertThat;
import static org.assertj.core.api.Assertions.within;

import org.junit.jupiter.api.Test;

/** Held against the balances themselves: makeup E·C/(C − 1), bleed E/(C − 1). */
class CyclesTest {

  @Test
  void carriesMakeupAndBleedFromOneConcentrationToAnother() {
    double aim = 5;
    for (double kept : new double[] {2, 3, 5, 8}) {
      double habit = Math.log(kept / aim);
      double makeup = kept / (kept - 1) / (aim / (aim - 1));
      double bleed = (aim - 1) / (kept - 1);
      assertThat(Math.exp(Cycles.makeupFactor(-1 / (aim - 1), habit)))
          .isCloseTo(makeup, within(1e-9));
      assertThat(Math.exp(Cycles.bleedFactor(-aim / (aim - 1), habit)))
          .isCloseTo(bleed, within(1e-9));
    }
  }

  @Test
  void slopesAreTheDerivatives() {
    double step = 1e-6;
    for (double habit : new double[] {-0.6, 0, 0.4}) {
      double makeup =
          (Cycles.makeupFactor(-0.25, habit + step) - Cycles.makeupFactor(-0.25, habit - step))
              / (2 * step);
      double bleed =
          (Cycles.bleedFactor(-1.25, habit + step) - Cycles.bleedFactor(-1.25, habit - step))
              / (2 * step);
      assertThat(Cycles.makeupSlope(-0.25, habit)).isCloseTo(makeup, within(1e-5));
      assertThat(Cycles.bleedSlope(-1.25, habit)).isCloseTo(bleed, within(1e-5));
    }
  }

  @Test
  void basinThatIsNotBledKeepsItsMakeup() {
    assertThat(Cycles.makeupFactor(0, -0.5)).isZero();
    assertThat(Cycles.makeupSlope(0, -0.5)).isZero();
  }
}
