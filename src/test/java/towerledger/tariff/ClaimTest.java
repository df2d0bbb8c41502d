package towerledger.tariff;

import static org.assertj.core.api.Assertions.assertThat;
import static towerledger.tariff.Rates.CCF;
import static towerledger.tariff.Rates.USD;
import static towerledger.tariff.Rates.ccf;
import static towerledger.tariff.Rates.sewer;
import static towerledger.tariff.Rates.use;
import static towerledger.tariff.Rates.water;

import java.math.BigDecimal;
import java.util.List;
import org.junit.jupiter.api.Test;
import towerledger.quantity.Money;
import towerledger.quantity.Volume;
import towerledger.tariff.Projection.Scenario;

/** A claim a clerk can check, and what a cost becomes in five years. */
class ClaimTest {

  private static final RateSchedule SEWER =
      sewer(
          ccf("2024-07-01")
              .withBlocks("0", "5.00")
              .withCredit(
                  new CreditRule(
                      CreditRule.Method.MAKEUP_MINUS_BLOWDOWN, null, null, null, "by 1 March")));

  private static final TowerWater TOWER =
      TowerWater.of("T1")
          .withMakeup(volume(80))
          .withBlowdown(volume(20))
          .withModelled(volume(50), volume(55));

  private static final List<Claim.Evidence> READINGS =
      List.of(
          new Claim.Evidence("meter T1-MU", "80.0 ccf", "2025-09-01 to 2025-10-01"),
          new Claim.Evidence("meter T1-BD", "20.0 ccf", "2025-09-01 to 2025-10-01"));

  @Test
  void claimShowsItsWorkingAndWhatItLeavesOut() {
    Claim claim = claim(null);

    // 60 by the meters, held to 55 × 5.00
    assertThat(claim.due()).isEqualTo(Money.of("275.00", "USD"));
    assertThat(claim.unclaimed()).isEqualTo(claim.due());
    assertThat(claim.rule().deadline()).isEqualTo("by 1 March");
    assertThat(claim.working().lines())
        .containsExactly(
            "T1: makeup 80.00 ccf − blowdown 20.00 ccf = 60.00 ccf, claimed 55.00 ccf",
            "claimed: 55.00 ccf of 100.00 ccf metered water",
            "sewer bill without the credit 500.00 − with it 225.00 = 275.00");
    assertThat(claim.disclosures())
        .extracting(Claim.Disclosure::text)
        .anyMatch(text -> text.contains("disclosed and not claimed"))
        .contains("T1: 5.00 ccf lie beyond the model's upper bound");
    assertThat(claim.evidence()).isEqualTo(READINGS);
  }

  @Test
  void whatTheBillGaveIsTakenOffAndNeverTurnsNegative() {
    assertThat(claim("200.00").unclaimed()).isEqualTo(Money.of("75.00", "USD"));
    Claim over = claim("300.00");
    assertThat(over.unclaimed()).isEqualTo(Money.of("0.00", "USD"));
    assertThat(over.disclosures())
        .extracting(Claim.Disclosure::text)
        .anyMatch(text -> text.contains("25.00 more than the rule"));
  }

  @Test
  void costGrowsWithTheScenario() {
    Projection projection =
        Projection.of(
            Money.of("1000.00", "USD"),
            Projection.FIVE_YEARS,
            List.of(
                new Scenario("rates stay", new BigDecimal("0")),
                new Scenario("ten percent", new BigDecimal("0.10"))));

    assertThat(projection.courses().get(0).total()).isEqualTo(Money.of("5000.00", "USD"));
    assertThat(projection.courses().get(1).years())
        .extracting(amount -> amount.amount().toPlainString())
        .containsExactly("1000.00", "1100.00", "1210.00", "1331.00", "1464.10");
    assertThat(projection.courses().get(1).total()).isEqualTo(Money.of("6105.10", "USD"));
  }

  @Test
  void ratesUpAQuarterInTwoYearsAreWithinTheUsualScenarios() {
    // given: a schedule that rose by 25 % from July 2024 to July 2026
    RateSchedule schedule =
        water(
            ccf("2024-07-01").withCharge("service", "40").withBlocks("0", "4.00"),
            ccf("2025-07-01").withCharge("service", "44").withBlocks("0", "4.40"),
            ccf("2026-07-01").withCharge("service", "50").withBlocks("0", "5.00"));

    Scenario past =
        Projection.asInThePast(schedule, use("2026-08-01", "2026-09-01", "100"), USD).orElseThrow();

    // then: √1.25 − 1 = 11.8 % a year, between +20 and +30 % over two years (common practice)
    assertThat(past.escalation()).isEqualByComparingTo("0.1181");
    assertThat(past.escalation())
        .isBetween(Projection.USUAL.get(1).escalation(), Projection.USUAL.get(2).escalation());
  }

  private static Claim claim(String given) {
    return Claim.of(
        "S1",
        SEWER,
        use("2025-09-01", "2025-10-01", "100").withTowers(List.of(TOWER)),
        READINGS,
        given == null ? null : Money.of(given, "USD"),
        USD);
  }

  private static Volume volume(double units) {
    return Volume.of(units, CCF);
  }
}
