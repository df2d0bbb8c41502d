package towerledger.tariff;

import static org.assertj.core.api.Assertions.assertThat;
import static towerledger.tariff.Rates.CCF;
import static towerledger.tariff.Rates.USD;
import static towerledger.tariff.Rates.ccf;
import static towerledger.tariff.Rates.sewer;
import static towerledger.tariff.Rates.use;
import static towerledger.tariff.Rates.water;

import java.math.BigDecimal;
import java.time.LocalDate;
import java.util.ArrayList;
import java.util.List;
import java.util.Random;
import org.junit.jupiter.api.Test;
import towerledger.quantity.Money;
import towerledger.quantity.Volume;
import towerledger.tariff.WaterPrice.Loss;
import towerledger.tariff.WaterPrice.Price;

/** Lost water priced at the margin, with the sewer credit inside both bills. */
class WaterPriceTest {

  private static final RateSchedule WATER =
      water(ccf("2025-01-01").withCharge("service", "50").withBlocks("0", "2", "100", "5"));
  private static final RateSchedule SEWER =
      sewer(
          ccf("2025-01-01")
              .withBlocks("0", "4")
              .withCredit(CreditRule.of(CreditRule.Method.MAKEUP_MINUS_BLOWDOWN)));

  @Test
  void lossIsPricedAcrossTheBlocksItReachesInto() {
    // given: 130 ccf with 50 ccf lost: 30 in the upper block, 20 in the lower
    Price price =
        WaterPrice.marginal(
            List.of(WATER),
            use("2026-05-01", "2026-06-01", "130"),
            List.of(loss("leak", 50, Loss.Path.TO_GROUND)),
            USD);

    assertThat(price.joint()).isEqualTo(Money.of("190.00", "USD"));
    assertThat(price.shares()).singleElement().extracting("share").isEqualTo(price.joint());
  }

  @Test
  void severalLossesShareTheJointDifference() {
    // given: alone, 30 ccf save 150 and 40 ccf save 170; together 70 ccf save 230, not 320
    Price price =
        WaterPrice.marginal(
            List.of(WATER),
            use("2026-05-01", "2026-06-01", "130"),
            List.of(
                loss("leak", 30, Loss.Path.TO_GROUND), loss("overflow", 40, Loss.Path.TO_DRAIN)),
            USD);

    // then: shares of 150/320 and 170/320
    assertThat(price.joint()).isEqualTo(Money.of("230.00", "USD"));
    assertThat(price.shares())
        .extracting(share -> share.alone().amount().toPlainString())
        .containsExactly("150.00", "170.00");
    assertThat(price.shares())
        .extracting(share -> share.share().amount().toPlainString())
        .containsExactly("107.81", "122.19");
  }

  @Test
  void creditStandsInBothBills() {
    // given: 80 ccf makeup, 20 ccf blowdown, evaporation modelled at 50 and at most 55 ccf
    SiteUse use =
        use("2026-05-01", "2026-06-01", "90")
            .withTowers(
                List.of(
                    TowerWater.of("T1")
                        .withMakeup(volume(80))
                        .withBlowdown(volume(20))
                        .withModelled(volume(50), volume(55))));

    // when: 10 ccf are lost past the blowdown meter, or through it
    Price leak =
        WaterPrice.marginal(
            List.of(WATER, SEWER), use, List.of(loss("leak", 10, Loss.Path.TO_GROUND)), USD);
    Price bleed =
        WaterPrice.marginal(
            List.of(WATER, SEWER),
            use,
            List.of(loss("bleed", 10, Loss.Path.THROUGH_BLOWDOWN_METER)),
            USD);

    // then: the leak is in makeup − blowdown, 60 ccf held to 55; without it 50 are credited, so
    // five
    // of its ten ccf pay sewer. The bleed pays sewer in full.
    assertThat(leak.joint()).isEqualTo(Money.of("40.00", "USD"));
    assertThat(bleed.joint()).isEqualTo(Money.of("60.00", "USD"));
  }

  @Test
  void severalSystemsShareOneBill() {
    // given: 200 ccf on the site's one bill; T1 is credited 80 − 20 = 60 ccf, T2 50 − 30 = 20 ccf
    SiteUse use =
        use("2026-05-01", "2026-06-01", "200")
            .withTowers(
                List.of(
                    TowerWater.of("T1")
                        .withMakeup(volume(80))
                        .withBlowdown(volume(20))
                        .withModelled(volume(60), volume(65)),
                    TowerWater.of("T2")
                        .withMakeup(volume(50))
                        .withBlowdown(volume(30))
                        .withModelled(volume(18), volume(20))));

    // when: T1 leaks 10 ccf past its blowdown meter, T2 bleeds 10 ccf too much through its own
    Price price =
        WaterPrice.marginal(
            List.of(WATER, SEWER),
            use,
            List.of(
                new Loss("leak", "T1", volume(10), Loss.Path.TO_DRAIN),
                new Loss("bleed", "T2", volume(10), Loss.Path.THROUGH_BLOWDOWN_METER)),
            USD);

    // then: T1's leak was credited, so only its water counts, 10 × 5; T2's pays sewer as well,
    // 10 × (5 + 4); here the two add up, since both stay in the upper block
    assertThat(price.joint()).isEqualTo(Money.of("140.00", "USD"));
    assertThat(price.shares())
        .extracting(share -> share.share().amount().toPlainString())
        .containsExactly("50.00", "90.00");
  }

  @Test
  void uncreditedEvaporationCostsAboutDouble() {
    // given: sewer at the price of water, a rule of the trade (common practice, no source)
    RateSchedule water = water(ccf("2025-01-01").withBlocks("0", "4.10"));
    RateSchedule sewer =
        sewer(
            ccf("2025-01-01")
                .withBlocks("0", "4.30")
                .withCredit(CreditRule.of(CreditRule.Method.MAKEUP_MINUS_BLOWDOWN)));
    SiteUse use = use("2026-05-01", "2026-06-01", "500");
    TowerWater tower =
        TowerWater.of("T1")
            .withMakeup(volume(400))
            .withBlowdown(volume(100))
            .withModelled(volume(290), volume(310));

    // when: the 300 ccf evaporated are priced without and with the credit
    Bill uncredited = Billing.bill(List.of(water, sewer), use, USD);
    Bill credited = Billing.bill(List.of(water, sewer), use.withTowers(List.of(tower)), USD);
    BigDecimal waterOnly = new BigDecimal("4.10").multiply(BigDecimal.valueOf(300));
    BigDecimal saved = uncredited.total().minus(credited.total()).amount();

    // then
    assertThat(saved).isEqualByComparingTo("1290.00");
    assertThat(waterOnly.add(saved).doubleValue() / waterOnly.doubleValue()).isBetween(1.8, 2.3);
  }

  @Test
  void towersOwnWaterAloneIsSaid() {
    Price price =
        WaterPrice.marginal(
            List.of(WATER),
            use("2026-05-01", "2026-06-01", "30").withTowersOwnWaterOnly(),
            List.of(loss("leak", 40, Loss.Path.TO_GROUND)),
            USD);

    assertThat(price.joint()).isEqualTo(Money.of("60.00", "USD"));
    assertThat(price.notes())
        .anyMatch(note -> note.contains("towers' own water alone"))
        .anyMatch(note -> note.contains("exceed the site's metered use"));
  }

  @Test
  void sharesOfSeveralLossesSumToTheJointDifference() {
    for (long seed = 1; seed <= 500; seed++) {
      Random random = new Random(seed);
      List<RateSchedule> schedules =
          List.of(
              water(Rates.random(random, Rates.LONG_AGO)),
              sewer(Rates.random(random, Rates.LONG_AGO)));
      List<Loss> losses = new ArrayList<>();
      double lost = 0;
      for (int i = 0; i <= random.nextInt(5); i++) {
        double ccf = random.nextInt(5000) / 100.0;
        losses.add(loss("loss " + i, ccf, Loss.Path.TO_DRAIN));
        lost += ccf;
      }
      LocalDate from = LocalDate.of(2024, 1, 1).plusDays(random.nextInt(700));
      SiteUse use =
          SiteUse.of(
              from, from.plusMonths(1), Usage.of(volume(lost + random.nextInt(10_000) / 100.0)));

      Price price = WaterPrice.marginal(schedules, use, losses, USD);

      assertThat(
              price.shares().stream()
                  .map(share -> share.share().amount())
                  .reduce(BigDecimal.ZERO, BigDecimal::add))
          .as("seed %d", seed)
          .isEqualByComparingTo(price.joint().amount());
      assertThat(price.shares())
          .as("seed %d", seed)
          .allMatch(share -> share.share().amount().signum() >= 0);
    }
  }

  private static Loss loss(String name, double ccf, Loss.Path path) {
    return new Loss(name, "T1", volume(ccf), path);
  }

  private static Volume volume(double ccf) {
    return Volume.of(ccf, CCF);
  }
}
