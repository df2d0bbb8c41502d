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
      double makeup = kept / (kept - 1) / (aim / (aim - 1));
      double bleed = (aim - 1) / (kept - 1);
      assertThat(Cycles.makeupAt(-1 / (aim - 1), kept / aim)).isCloseTo(makeup, within(1e-9));
      assertThat(Cycles.bleedAt(-aim / (aim - 1), kept / aim)).isCloseTo(bleed, within(1e-9));
    }
  }

  @Test
  void slopesAreTheDerivatives() {
    double step = 1e-6;
    for (double habit : new double[] {-0.6, 0, 0.4}) {
      double more = Math.exp(habit + step);
      double less = Math.exp(habit - step);
      double makeup =
          Math.log(Cycles.makeupAt(-0.25, more) / Cycles.makeupAt(-0.25, less)) / (2 * step);
      double bleed =
          Math.log(Cycles.bleedAt(-1.25, more) / Cycles.bleedAt(-1.25, less)) / (2 * step);
      assertThat(Cycles.makeupSlopeAt(-0.25, Math.exp(habit))).isCloseTo(makeup, within(1e-5));
      assertThat(Cycles.bleedSlopeAt(-1.25, Math.exp(habit))).isCloseTo(bleed, within(1e-5));
    }
  }

  @Test
  void basinThatIsNotBledKeepsItsMakeup() {
    assertThat(Cycles.makeupAt(0, 0.6)).isEqualTo(1);
    assertThat(Cycles.makeupSlopeAt(0, 0.6)).isZero();
  }
}
