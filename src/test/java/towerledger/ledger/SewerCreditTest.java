package towerledger.ledger;

import static org.assertj.core.api.Assertions.assertThat;

import java.math.BigDecimal;
import java.time.LocalDate;
import java.util.Currency;
import java.util.List;
import java.util.Optional;
import org.jspecify.annotations.Nullable;
import org.junit.jupiter.api.Test;
import towerledger.quantity.Volume;
import towerledger.quantity.VolumeUnit;
import towerledger.tariff.CreditRule;
import towerledger.tariff.CreditRule.Method;
import towerledger.tariff.RateSchedule;
import towerledger.tariff.RateVersion;
import towerledger.tariff.Service;
import towerledger.tariff.SiteUse;
import towerledger.tariff.TowerWater;
import towerledger.tariff.Usage;

/** Worked by hand: sewer at 5 a cubic metre of 200; 60 evaporate by the model, at most 66. */
class SewerCreditTest {

  private static final TowerWater MODELLED =
      TowerWater.of("T").withModelled(cubicMetres(60), cubicMetres(66));

  @Test
  void withoutAMakeupMeterTheCreditIsWhatIsAtStakeByTheRule() {
    // 80 expected, so 20 bled: 60 × 5, and 40 % of 80 × 5
    Volume expected = cubicMetres(80);
    assertThat(credit(CreditRule.of(Method.MAKEUP_MINUS_BLOWDOWN), MODELLED, expected))
        .hasValueSatisfying(amount -> assertThat(amount).isEqualByComparingTo("300"));
    assertThat(credit(CreditRule.of(Method.ENGINEERED), MODELLED, expected))
        .hasValueSatisfying(amount -> assertThat(amount).isEqualByComparingTo("300"));
    assertThat(credit(CreditRule.percentOfMakeup("0.4"), MODELLED, expected))
        .hasValueSatisfying(amount -> assertThat(amount).isEqualByComparingTo("160"));
  }

  @Test
  void withBothMetersTheCreditIsTheirs() {
    TowerWater metered = MODELLED.withMakeup(cubicMetres(90)).withBlowdown(cubicMetres(25));
    assertThat(credit(CreditRule.of(Method.MAKEUP_MINUS_BLOWDOWN), metered, cubicMetres(80)))
        .hasValueSatisfying(amount -> assertThat(amount).isEqualByComparingTo("325"));
  }

  @Test
  void aMeterThatTheRuleNeedsAndNobodyHasLeavesTheCreditUnknownNotZero() {
    TowerWater noBleedMeter = MODELLED.withMakeup(cubicMetres(90));
    assertThat(credit(CreditRule.of(Method.MAKEUP_MINUS_BLOWDOWN), noBleedMeter, cubicMetres(80)))
        .isEmpty();
    assertThat(credit(CreditRule.of(Method.CREDIT_METER), noBleedMeter, cubicMetres(80))).isEmpty();
  }

  @Test
  void nothingIsDueWhereNoRuleOrNoWaterIsKnown() {
    assertThat(credit(CreditRule.NONE, MODELLED, cubicMetres(80))).isEmpty();
    assertThat(credit(CreditRule.of(Method.ENGINEERED), TowerWater.of("T"), null)).isEmpty();
  }

  private static Optional<BigDecimal> credit(
      CreditRule rule, TowerWater tower, @Nullable Volume expected) {
    RateSchedule sewer =
        RateSchedule.of(
            "S",
            Service.SEWER,
            RateVersion.from(LocalDate.of(2020, 1, 1), VolumeUnit.CUBIC_METRE)
                .withBlocks("0", "5.00")
                .withCredit(rule));
    SiteUse use =
        SiteUse.of(
            LocalDate.of(2025, 10, 1), LocalDate.of(2025, 11, 1), Usage.of(cubicMetres(200)));
    return new SewerCredit(List.of(sewer), Currency.getInstance("USD")).of(use, tower, expected);
  }

  private static Volume cubicMetres(double volume) {
    return Volume.ofLitres(1000 * volume);
  }
}
