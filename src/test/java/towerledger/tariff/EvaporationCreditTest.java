package towerledger.tariff;

import static org.assertj.core.api.Assertions.assertThat;
import static org.assertj.core.api.Assertions.assertThatThrownBy;
import static org.assertj.core.api.Assertions.within;
import static towerledger.tariff.Rates.CCF;
import static towerledger.tariff.Rates.use;

import java.math.BigDecimal;
import java.util.List;
import org.junit.jupiter.api.Test;
import towerledger.quantity.Volume;
import towerledger.tariff.CreditRule.Method;
import towerledger.tariff.EvaporationCredit.Remark;

/** The utility's rule applied, clamped and held against what can evaporate. */
class EvaporationCreditTest {

  /** 100 ccf makeup, 25 blowdown, 70 on the credit meter; model says 60 and at most 66. */
  private static final TowerWater TOWER =
      TowerWater.of("T1")
          .withMakeup(ccf(100))
          .withBlowdown(ccf(25))
          .withCreditMeter(ccf(70))
          .withModelled(ccf(60), ccf(66));

  @Test
  void metersAreHeldToWhatCanEvaporate() {
    EvaporationCredit.TowerCredit credit = one(CreditRule.of(Method.MAKEUP_MINUS_BLOWDOWN), TOWER);

    assertThat(in(credit.credited())).isEqualTo(66, within(1e-9));
    assertThat(in(credit.beyondModel())).isEqualTo(9, within(1e-9));
    assertThat(credit.remarks()).containsExactly(Remark.HELD_TO_MODEL);
    assertThat(in(one(CreditRule.of(Method.CREDIT_METER), TOWER).credited()))
        .isEqualTo(66, within(1e-9));
  }

  @Test
  void utilitysOwnFiguresStandAndTheExcessIsDisclosed() {
    // 90 % of makeup deemed evaporated: published for one case in Waltham MA
    EvaporationCredit.TowerCredit percent = one(CreditRule.percentOfMakeup("0.9"), TOWER);
    EvaporationCredit.TowerCredit blowdown = one(CreditRule.of(Method.BLOWDOWN_AS_SEWER), TOWER);

    assertThat(in(percent.credited())).isEqualTo(90, within(1e-9));
    assertThat(in(percent.beyondModel())).isEqualTo(24, within(1e-9));
    assertThat(percent.remarks()).containsExactly(Remark.ABOVE_MODEL);
    assertThat(in(blowdown.credited())).isEqualTo(75, within(1e-9));
    assertThat(in(one(CreditRule.of(Method.ENGINEERED), TOWER).credited()))
        .isEqualTo(60, within(1e-9));
  }

  @Test
  void creditStaysWithinZeroAndMakeup() {
    TowerWater swapped = TOWER.withMakeup(ccf(20)).withBlowdown(ccf(30));

    assertThat(one(CreditRule.of(Method.MAKEUP_MINUS_BLOWDOWN), swapped).credited())
        .isEqualTo(Volume.ZERO);
    assertThat(one(CreditRule.of(Method.MAKEUP_MINUS_BLOWDOWN), swapped).remarks())
        .contains(Remark.BLOWDOWN_ABOVE_MAKEUP);
    assertThat(in(one(CreditRule.of(Method.ENGINEERED), swapped).credited()))
        .isEqualTo(20, within(1e-9));
  }

  @Test
  void missingMeterEarnsNothingAndSaysSo() {
    EvaporationCredit.TowerCredit credit =
        one(CreditRule.of(Method.MAKEUP_MINUS_BLOWDOWN), TowerWater.of("T1").withMakeup(ccf(100)));

    assertThat(credit.byRule()).isNull();
    assertThat(credit.credited()).isEqualTo(Volume.ZERO);
    assertThat(credit.remarks()).containsExactly(Remark.NOT_MEASURED);
  }

  @Test
  void anEstimateWaitsUntilAMeterShowsTheMakeup() {
    EvaporationCredit.TowerCredit credit =
        one(CreditRule.of(Method.ENGINEERED), TowerWater.of("T1").withModelled(ccf(60), ccf(66)));

    assertThat(in(credit.byRule())).isEqualTo(60, within(1e-9));
    assertThat(credit.credited()).isEqualTo(Volume.ZERO);
    assertThat(credit.remarks()).containsExactly(Remark.UNMETERED);
  }

  @Test
  void thresholdAndCapAreTheUtilitys() {
    // given: from 130 ccf a bill on, at most half the makeup
    CreditRule rule =
        new CreditRule(
            Method.MAKEUP_MINUS_BLOWDOWN,
            null,
            new BigDecimal("130"),
            new BigDecimal("0.5"),
            "by 1 March");

    EvaporationCredit below =
        EvaporationCredit.assess(
            rule, use("2026-05-01", "2026-06-01", "129").withTowers(List.of(TOWER)), CCF, 1);
    EvaporationCredit enough =
        EvaporationCredit.assess(
            rule, use("2026-05-01", "2026-06-01", "130").withTowers(List.of(TOWER)), CCF, 1);

    assertThat(below.volume()).isEqualTo(Volume.ZERO);
    assertThat(below.remarks()).containsExactly(Remark.BELOW_MINIMUM_USE);
    assertThat(in(enough.volume())).isEqualTo(50, within(1e-9));
    assertThat(enough.towers().get(0).remarks()).contains(Remark.CAPPED);
  }

  @Test
  void sharesAboveTheWholeAreRefused() {
    assertThatThrownBy(() -> CreditRule.percentOfMakeup("1.4"))
        .hasMessageContaining("credit_percent of 140 is outside 0 to 100");
    assertThatThrownBy(() -> SewerRule.percentOfWater("1.4"))
        .hasMessageContaining("sewer_percent of 140 is outside 0 to 100");
  }

  private static EvaporationCredit.TowerCredit one(CreditRule rule, TowerWater tower) {
    SiteUse use = use("2026-05-01", "2026-06-01", "150").withTowers(List.of(tower));
    return EvaporationCredit.assess(rule, use, CCF, 1).towers().get(0);
  }

  private static Volume ccf(double units) {
    return Volume.of(units, CCF);
  }

  private static double in(Volume volume) {
    return volume.in(CCF);
  }
}
