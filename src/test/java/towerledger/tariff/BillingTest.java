package towerledger.tariff;

import static org.assertj.core.api.Assertions.assertThat;
import static org.assertj.core.api.Assertions.assertThatThrownBy;
import static towerledger.tariff.Rates.CCF;
import static towerledger.tariff.Rates.USD;
import static towerledger.tariff.Rates.ccf;
import static towerledger.tariff.Rates.sewer;
import static towerledger.tariff.Rates.total;
import static towerledger.tariff.Rates.use;
import static towerledger.tariff.Rates.water;

import java.math.BigDecimal;
import java.time.LocalDate;
import java.time.temporal.ChronoUnit;
import java.util.ArrayList;
import java.util.List;
import java.util.Random;
import java.util.function.BiConsumer;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.CsvSource;
import towerledger.quantity.Volume;
import towerledger.quantity.VolumeUnit;
import towerledger.tariff.RateVersion.BlockTable;
import towerledger.tariff.RateVersion.Charge;

/** Bills worked by hand, and what holds for every bill. */
class BillingTest {

  /** Arcata's three blocks of 2017: reference/tariff_conformance.csv, case C1. */
  private static final RateSchedule THREE_BLOCKS =
      water(
          ccf("2017-10-01")
              .withCharge("service charge", "12.16")
              .withBlocks("0", "3.10", "2", "3.34", "4", "6.54"));

  @ParameterizedTest(name = "{0} ccf cost {1}")
  @CsvSource({"0, 12.16", "2, 18.36", "2.01, 18.39", "4, 25.04", "5, 31.58", "40, 260.48"})
  void limitBelongsToTheBlockBelow(String units, String expected) {
    assertThat(total(THREE_BLOCKS, use("2018-03-01", "2018-04-01", units))).isEqualTo(expected);
  }

  @Test
  void everyLineShowsItsWorking() {
    Bill bill = Billing.bill(THREE_BLOCKS, use("2018-03-01", "2018-04-01", "40"), USD);

    assertThat(bill.lines())
        .extracting(BillLine::working)
        .containsExactly(
            "12.16", "2 ccf × 3.10", "2 ccf × 3.34 (above 2 ccf)", "36 ccf × 6.54 (above 4 ccf)");
  }

  @ParameterizedTest(name = "{0} to {1}: {2} ccf cost {3}")
  @CsvSource({
    // 14 of 29 days at 2.00 and 15 of 29 at 3.00 in the leap year: 14 × 2 + 15 × 3 + 29
    "2028-02-01, 2028-03-01, 29, 102.00",
    // a year later wholly at 3.00, and the month before wholly at 2.00
    "2029-02-01, 2029-03-01, 28, 113.00",
    "2028-01-01, 2028-02-01, 31, 91.00",
  })
  void rateChangeSplitsByDaysInLeapYearsToo(String from, String to, String units, String expected) {
    // given: the rate rises on 15 February 2028
    RateSchedule schedule =
        water(
            ccf("2027-01-01").withCharge("service", "29.00").withBlocks("0", "2.00"),
            ccf("2028-02-15").withCharge("service", "29.00").withBlocks("0", "3.00"));

    assertThat(total(schedule, use(from, to, units))).isEqualTo(expected);
  }

  @Test
  void bimonthlyBillSpansTwoScheduleVersions() {
    // given: 31 of 59 days at the old rates and 28 at the new, 118 ccf, limits shared likewise
    RateSchedule schedule =
        water(
            ccf("2025-01-01")
                .withMonthsPerBill(2)
                .withCharge("service", "59.00")
                .withBlocks("0", "2.00", "59", "4.00"),
            ccf("2026-02-01")
                .withMonthsPerBill(2)
                .withCharge("service", "118.00")
                .withBlocks("0", "3.00", "59", "5.00"));

    // when
    Bill bill = Billing.bill(schedule, use("2026-01-01", "2026-03-01", "118"), USD);

    // then: 31 + 31 × 2 + 31 × 4 = 217, 56 + 28 × 3 + 28 × 5 = 280
    assertThat(bill.total().amount()).isEqualTo("497.00");
    assertThat(bill.lines().get(0).working())
        .isEqualTo(
            "0.525424… bills × 59.00 (31 of 59 days, 2026-01-01 to 2026-01-31, at the rates from"
                + " 2025-01-01)");
  }

  @ParameterizedTest(name = "{0} to {1} cost {2}")
  @CsvSource({
    "2025-12-15, 2026-01-15, 62.00",
    "2026-03-17, 2026-04-16, 75.00",
    "2026-06-01, 2026-07-01, 90.00",
    "2026-10-17, 2026-11-16, 75.00",
  })
  void seasonRunsAcrossTheNewYear(String from, String to, String expected) {
    // given: a ccf a day, 2.00 from November to March and 3.00 from April to October
    RateSchedule schedule =
        water(
            ccf("2025-01-01")
                .withTables(
                    List.of(
                        BlockTable.of(new Season(11, 3), null, "0", "2.00"),
                        BlockTable.of(new Season(4, 10), null, "0", "3.00"))));
    SiteUse days = use(from, to, "0");
    String units =
        Long.toString(ChronoUnit.DAYS.between(days.startInclusive(), days.endExclusive()));

    assertThat(total(schedule, use(from, to, units))).isEqualTo(expected);
  }

  @Test
  void monthOnBimonthlyScheduleIsHalfABill() {
    RateSchedule schedule =
        water(
            ccf("2025-01-01")
                .withMonthsPerBill(2)
                .withCharge("service", "30.00")
                .withBlocks("0", "1.00", "20", "2.00"));

    Bill bill = Billing.bill(schedule, use("2026-05-01", "2026-06-01", "15"), USD);

    // 15 + 10 × 1 + 5 × 2
    assertThat(bill.total().amount()).isEqualTo("35.00");
    assertThat(bill.notes()).singleElement().asString().contains("31 days are 0.5 regular bills");
  }

  @ParameterizedTest(name = "{0} ccf cost {1}")
  @CsvSource({
    // minimum 25.00, then 10 % surcharge, then 5 % tax: 25 × 1.1 × 1.05 = 28.875
    "0, 28.88",
    "10, 28.88",
    // (10 + 20 × 1.50) × 1.155
    "20, 46.20",
  })
  void minimumThenSurchargeThenTax(String units, String expected) {
    RateSchedule schedule =
        water(
            ccf("2025-01-01")
                .withCharge("service", "10.00")
                .withBlocks("0", "1.50")
                .withMinimumCharge("25.00")
                .withSurchargeShare("0.10")
                .withTaxShare("0.05"));

    assertThat(total(schedule, use("2026-05-01", "2026-06-01", units))).isEqualTo(expected);
  }

  @Test
  void meterSizePicksChargeAndBlocks() {
    // given
    MeterSize two = MeterSize.ofInches(2);
    RateSchedule schedule =
        water(
            ccf("2025-01-01")
                .withCharge(new Charge("service", MeterSize.parseInches("3/4\""), decimal("9")))
                .withCharge(new Charge("service", two, decimal("40")))
                .withCharge("fire", "5")
                .withTables(
                    List.of(
                        BlockTable.of(null, null, "0", "1"), BlockTable.of(null, two, "0", "2"))));
    SiteUse tenUnits = use("2026-05-01", "2026-06-01", "10");

    // then
    assertThat(total(schedule, tenUnits.withMeterSize(two))).isEqualTo("65.00");
    assertThat(total(schedule, tenUnits.withMeterSize(MeterSize.ofMillimetres(19.05))))
        .isEqualTo("24.00");
    assertThatThrownBy(() -> total(schedule, tenUnits.withMeterSize(MeterSize.ofInches(3))))
        .hasMessageContaining("none for 3 in; give one of 0.75 in, 2 in");
    assertThatThrownBy(() -> total(schedule, tenUnits))
        .isInstanceOf(TariffException.class)
        .hasMessageContaining("an unknown size");
  }

  @Test
  void sewerIsBilledOnItsOwnBasis() {
    SiteUse hundred = use("2026-07-01", "2026-08-01", "100");
    RateVersion rates = ccf("2025-01-01").withBlocks("0", "2.00");

    assertThat(total(sewer(rates), hundred)).isEqualTo("200.00");
    assertThat(total(sewer(rates.withSewer(SewerRule.percentOfWater("0.9"))), hundred))
        .isEqualTo("180.00");
    assertThat(
            total(
                sewer(rates.withSewer(SewerRule.RETURN_METER)),
                hundred.withReturnMeter(Usage.of("35", CCF))))
        .isEqualTo("70.00");
    RateSchedule winter = sewer(rates.withSewer(SewerRule.winterAverage(new Season(12, 2))));
    assertThat(total(winter, hundred.withWinterAverage(Usage.of("60", CCF)))).isEqualTo("120.00");
    assertThat(
            total(
                winter,
                use("2026-01-01", "2026-02-01", "100").withWinterAverage(Usage.of("60", CCF))))
        .isEqualTo("200.00");
    assertThatThrownBy(() -> total(winter, hundred))
        .hasMessageContaining("average water use of a winter bill, which is not known");
  }

  @Test
  void billBeforeTheFirstVersionIsRefused() {
    assertThatThrownBy(() -> total(THREE_BLOCKS, use("2017-09-15", "2017-10-15", "5")))
        .isInstanceOf(TariffException.class)
        .hasMessageContaining("no rates before 2017-10-01 and the bill begins 2017-09-15");
  }

  @Test
  void gallonsAreBilledInTheUtilitysUnit() {
    // given: 748.05195 gal are a ccf (231 and 172,800 cubic inches)
    SiteUse use =
        SiteUse.of(
            LocalDate.of(2018, 3, 1),
            LocalDate.of(2018, 4, 1),
            Usage.of(Volume.of(40, VolumeUnit.HUNDRED_CUBIC_FEET)));

    assertThat(total(THREE_BLOCKS, use)).isEqualTo("260.48");
  }

  @Test
  void billRisesWithUse() {
    forManySeeds(
        (random, seed) -> {
          RateSchedule schedule = water(Rates.random(random, Rates.LONG_AGO));
          LocalDate from = LocalDate.of(2024, 1, 1).plusDays(random.nextInt(700));
          LocalDate to = from.plusDays(20 + random.nextInt(80));
          BigDecimal units = BigDecimal.valueOf(random.nextInt(40_000), 2);
          Bill less = Billing.bill(schedule, SiteUse.of(from, to, new Usage(units, CCF)), USD);
          Bill more =
              Billing.bill(
                  schedule, SiteUse.of(from, to, new Usage(units.add(decimal("0.37")), CCF)), USD);
          assertThat(more.exact().amount())
              .as("seed %d: %s ccf", seed, units)
              .isGreaterThanOrEqualTo(less.exact().amount());
          assertThat(more.exact().amount().subtract(more.total().amount()).abs())
              .as("seed %d: rounded once", seed)
              .isLessThanOrEqualTo(decimal("0.005"));
        });
  }

  @Test
  void splittingAPeriodAtARateChangeLosesNothing() {
    forManySeeds(
        (random, seed) -> {
          // given: one set of rates, and the same rates announced anew on some days of the period
          RateVersion rates = Rates.random(random, Rates.LONG_AGO);
          LocalDate from = LocalDate.of(2024, 1, 1).plusDays(random.nextInt(700));
          int days = 20 + random.nextInt(80);
          List<RateVersion> versions = new ArrayList<>(List.of(rates));
          from.datesUntil(from.plusDays(days))
              .skip(1)
              .filter(day -> random.nextInt(15) == 0)
              .forEach(day -> versions.add(rates.withEffectiveFrom(day)));
          SiteUse use =
              SiteUse.of(
                  from,
                  from.plusDays(days),
                  new Usage(BigDecimal.valueOf(random.nextInt(40_000), 2), CCF));

          // when
          Bill whole = Billing.bill(water(rates), use, USD);
          Bill split = Billing.bill(water(versions.toArray(RateVersion[]::new)), use, USD);

          // then
          assertThat(split.total()).as("seed %d", seed).isEqualTo(whole.total());
        });
  }

  private static BigDecimal decimal(String text) {
    return new BigDecimal(text);
  }

  private static void forManySeeds(BiConsumer<Random, Long> check) {
    for (long seed = 1; seed <= 2000; seed++) {
      check.accept(new Random(seed), seed);
    }
  }
}
