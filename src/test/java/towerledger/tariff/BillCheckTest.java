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
import java.util.List;
import org.jspecify.annotations.Nullable;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.CsvSource;
import towerledger.quantity.Money;
import towerledger.quantity.Volume;
import towerledger.tariff.BillCheck.Reason;
import towerledger.tariff.RateVersion.Charge;

/** What a bill is off by, and what likely explains it. */
class BillCheckTest {

  private static final MeterSize TWO = MeterSize.ofInches(2);

  private static final RateSchedule WATER =
      water(
          ccf("2024-07-01")
              .withCharge(new Charge("service", TWO, new BigDecimal("50")))
              .withCharge(new Charge("service", MeterSize.ofInches(3), new BigDecimal("90")))
              .withBlocks("0", "4.00"),
          ccf("2025-07-01")
              .withCharge(new Charge("service", TWO, new BigDecimal("55")))
              .withCharge(new Charge("service", MeterSize.ofInches(3), new BigDecimal("99")))
              .withBlocks("0", "4.40"));

  private static final RateSchedule SEWER =
      sewer(
          ccf("2024-07-01")
              .withBlocks("0", "5.00")
              .withCredit(CreditRule.of(CreditRule.Method.MAKEUP_MINUS_BLOWDOWN)));

  @ParameterizedTest(name = "{0} units, {1} metered, {2} billed: {3}")
  @CsvSource({
    // 100 × 4.40 + 55 = 495.00
    "100, 99.6, 495.00, ",
    "100, 102.9, 495.03, ",
    "1000, 100, 4455.00, WRONG_MULTIPLIER",
    "10, 100, 99.00, WRONG_MULTIPLIER",
    "100, 74.8, 495.00, WRONG_MULTIPLIER",
    "100, 80, 495.00, USAGE_UNEXPLAINED",
    "100, 100, 450.00, WRONG_RATE",
    "100, 100, 539.00, WRONG_METER_SIZE",
    "100, 100, 500.00, AMOUNT_UNEXPLAINED",
  })
  void likelyReasonIsNamed(
      String units, double metered, String amount, Reason.@Nullable Kind expected) {
    BillCheck check = check("2025-09-01", "2025-10-01", units, metered, amount, false);

    assertThat(check.reasons())
        .extracting(Reason::kind)
        .containsExactlyElementsOf(expected == null ? List.of() : List.of(expected));
  }

  @Test
  void gapsAreInUnitsAndMoney() {
    BillCheck check = check("2025-09-01", "2025-10-01", "100", 80, "500.00", true);

    assertThat(check.usageGap()).isEqualByComparingTo("20");
    assertThat(check.amountGap()).isEqualTo(Money.of("5.00", "USD"));
    assertThat(check.reasons())
        .extracting(Reason::kind)
        .containsExactly(Reason.Kind.ESTIMATED_READ, Reason.Kind.AMOUNT_UNEXPLAINED);
  }

  @Test
  void rateChangeWithoutProrationIsFound() {
    // given: 15 of 30 days at either rate make 50 × 4 + 50 × 4.4 + 25 + 27.5 = 472.50
    BillCheck right = check("2025-06-16", "2025-07-16", "100", 100, "472.50", false);
    BillCheck wrong = check("2025-06-16", "2025-07-16", "100", 100, "495.00", false);

    assertThat(right.reasons()).isEmpty();
    assertThat(wrong.reasons())
        .extracting(Reason::kind)
        .containsExactly(Reason.Kind.RATE_CHANGE_NOT_PRORATED);
  }

  @Test
  void missingCreditIsWorthItsSewerCharge() {
    // given: 60 ccf evaporated of 100
    TowerWater tower =
        TowerWater.of("T1")
            .withMakeup(volume(80))
            .withBlowdown(volume(20))
            .withModelled(volume(58), volume(63));
    SiteUse site = use("2025-09-01", "2025-10-01", "100").withTowers(List.of(tower));

    BillCheck none = BillCheck.of(sewerBill("500.00", "0"), SEWER, site, null, USD);
    BillCheck part = BillCheck.of(sewerBill("300.00", "200.00"), SEWER, site, null, USD);
    BillCheck full = BillCheck.of(sewerBill("200.00", "300.00"), SEWER, site, null, USD);
    BillCheck silent = BillCheck.of(sewerBill("200.00", "0"), SEWER, site, null, USD);

    assertThat(none.creditDue()).isEqualTo(Money.of("300.00", "USD"));
    assertThat(none.reasons()).extracting(Reason::kind).containsExactly(Reason.Kind.MISSING_CREDIT);
    assertThat(part.reasons())
        .extracting(Reason::kind)
        .containsExactly(Reason.Kind.DIFFERENT_CREDIT);
    assertThat(full.reasons()).isEmpty();
    assertThat(silent.reasons())
        .extracting(Reason::kind)
        .contains(Reason.Kind.CREDIT_IN_THE_AMOUNT);
  }

  private static BillCheck check(
      String from, String to, String units, double metered, String amount, boolean estimated) {
    UtilityBill bill =
        new UtilityBill(
            Service.WATER,
            LocalDate.parse(from),
            LocalDate.parse(to),
            new BigDecimal(units),
            new BigDecimal(amount),
            null,
            estimated);
    return BillCheck.of(bill, WATER, use(from, to, units).withMeterSize(TWO), volume(metered), USD);
  }

  private static UtilityBill sewerBill(String amount, String credit) {
    return new UtilityBill(
        Service.SEWER,
        LocalDate.of(2025, 9, 1),
        LocalDate.of(2025, 10, 1),
        new BigDecimal("100"),
        new BigDecimal(amount),
        new BigDecimal(credit),
        false);
  }

  private static Volume volume(double units) {
    return Volume.of(units, CCF);
  }
}
