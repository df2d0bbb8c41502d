package towerledger.tariff;

import static org.assertj.core.api.Assertions.assertThat;
import static towerledger.tariff.Rates.CCF;
import static towerledger.tariff.Rates.ccf;
import static towerledger.tariff.Rates.sewer;
import static towerledger.tariff.Rates.water;

import java.math.BigDecimal;
import java.time.LocalDate;
import java.util.List;
import org.junit.jupiter.api.Test;

/** The cap of sewer by the winter's water. */
class WinterAverageTest {

  private static final RateSchedule WATER = water(ccf("2020-01-01").withBlocks("0", "3.00"));
  private static final RateSchedule SEWER =
      sewer(
          ccf("2020-01-01")
              .withBlocks("0", "5.00")
              .withSewer(SewerRule.winterAverage(new Season(12, 2))));

  private static final List<UtilityBill> BILLS =
      List.of(
          bill("2023-12-01", "2024-01-01", "900"), // the winter before
          bill("2024-11-01", "2024-12-01", "300"),
          bill("2024-12-01", "2025-01-01", "100"),
          bill("2025-01-01", "2025-02-01", "120"),
          bill("2025-02-01", "2025-03-01", "140"),
          bill("2025-06-01", "2025-07-01", "500"));

  @Test
  void billsOfTheLastWinterAreAveraged() {
    assertThat(
            WinterAverage.find(List.of(WATER, SEWER), BILLS, LocalDate.of(2025, 7, 1))
                .orElseThrow()
                .in(CCF))
        .isEqualByComparingTo("120");
  }

  @Test
  void averageIsOfARegularBillOfTheSewer() {
    // given: sewer billed every two months, water every month
    RateSchedule bimonthly =
        sewer(
            ccf("2020-01-01")
                .withMonthsPerBill(2)
                .withBlocks("0", "5.00")
                .withSewer(SewerRule.winterAverage(new Season(12, 2))));

    // then: 360 ccf in three halves of a bill
    assertThat(
            WinterAverage.find(List.of(WATER, bimonthly), BILLS, LocalDate.of(2025, 7, 1))
                .orElseThrow()
                .in(CCF))
        .isEqualByComparingTo("240");
  }

  @Test
  void nothingIsGuessed() {
    assertThat(WinterAverage.find(List.of(WATER), BILLS, LocalDate.of(2025, 7, 1))).isEmpty();
    assertThat(WinterAverage.find(List.of(WATER, SEWER), List.of(), LocalDate.of(2025, 7, 1)))
        .isEmpty();
    assertThat(WinterAverage.find(List.of(WATER, SEWER), BILLS, LocalDate.of(2027, 7, 1)))
        .isEmpty();
  }

  private static UtilityBill bill(String from, String to, String units) {
    return new UtilityBill(
        Service.WATER,
        LocalDate.parse(from),
        LocalDate.parse(to),
        new BigDecimal(units),
        null,
        null,
        null);
  }
}
