package towerledger.tariff;

import static org.assertj.core.api.Assertions.assertThat;
import static org.assertj.core.api.Assertions.assertThatThrownBy;

import java.math.BigDecimal;
import java.time.LocalDate;
import java.util.List;
import org.junit.jupiter.api.Test;
import org.springframework.beans.factory.annotation.Autowired;
import org.springframework.jdbc.core.simple.JdbcClient;
import towerledger.SignedIn;
import towerledger.account.Actor;
import towerledger.account.EmptyValues;
import towerledger.account.Outcome;
import towerledger.quantity.VolumeUnit;
import towerledger.site.Site;
import towerledger.site.SiteDetails;
import towerledger.site.Sites;
import towerledger.tariff.ScheduleRows.BlockRow;
import towerledger.tariff.ScheduleRows.ChargeRow;
import towerledger.tariff.ScheduleRows.Taken;
import towerledger.tariff.ScheduleRows.VersionRow;

/** Schedules and utility bills kept in the database. */
abstract class SchedulesCases {

  private static final Actor TEST = Actor.system("test");
  private static final LocalDate JULY = LocalDate.of(2025, 7, 1);

  @Autowired Schedules schedules;
  @Autowired UtilityBills bills;
  @Autowired Sites sites;
  @Autowired SignedIn signedIn;
  @Autowired JdbcClient jdbc;

  @Test
  void storedRatesBillLikeTheRowsSay() {
    // given: a sewer schedule with every kind of cell, and a later version
    ScheduleRows rows = rows("SCH-1", "90");
    assertThat(schedules.take(TEST, rows)).allMatch(row -> row.outcome() == Outcome.ADDED);
    schedules.take(
        TEST,
        new ScheduleRows(
            List.of(VersionRow.of("v2", "SCH-1", "sewer", JULY.plusYears(1), "kgal")),
            List.of(),
            List.of()));

    // when
    RateSchedule schedule = schedules.get("SCH-1");
    SiteUse use =
        SiteUse.of(
                LocalDate.of(2025, 8, 1),
                LocalDate.of(2025, 9, 1),
                Usage.of("100", VolumeUnit.THOUSAND_US_GALLONS))
            .withMeterSize(MeterSize.ofInches(2));

    // then: (20 + 60 × 4 + 30 × 5) × 1.03 × 1.02
    assertThat(Rates.total(schedule, use)).isEqualTo("430.75");
    assertThat(schedule.name()).isEqualTo("SCH-1");
    assertThat(schedule.versions()).hasSize(2);
    assertThat(schedule.versions().get(0).credit())
        .isEqualTo(
            new CreditRule(
                CreditRule.Method.PERCENT_OF_MAKEUP,
                schedule.versions().get(0).credit().share(),
                schedule.versions().get(0).credit().minimumUnits(),
                null,
                "by 1 March"));
    assertThat(schedules.list()).extracting(RateSchedule::code).contains("SCH-1");
    assertThatThrownBy(() -> schedules.get("SCH-NONE"))
        .hasMessageContaining("schedule 'SCH-NONE' is not known");
  }

  @Test
  void sameRowsAgainChangeNothingAndACorrectionIsKeptInTheHistory() {
    schedules.take(TEST, rows("SCH-2", "90"));

    assertThat(schedules.take(TEST, rows("SCH-2", "90")))
        .extracting(Taken::outcome)
        .containsOnly(Outcome.UNCHANGED);
    assertThat(schedules.take(TEST, rows("SCH-2", "95")))
        .extracting(Taken::outcome)
        .contains(Outcome.CHANGED);
    assertThat(schedules.take(TEST, rows("SCH-2", "140")))
        .filteredOn(Taken::refused)
        .singleElement()
        .satisfies(row -> assertThat(row.reason()).contains("sewer_percent of 140 is outside"));
    assertThat(schedules.get("SCH-2").versions().get(0).sewer().share())
        .isEqualByComparingTo("0.95");
    assertThat(
            jdbc.sql("SELECT action FROM account_change WHERE thing_code = ? ORDER BY id")
                .param("SCH-2 from 2025-07-01")
                .query(String.class)
                .list())
        .containsExactly("added", "changed");
  }

  @Test
  void utilityBillsAreCorrectedAndNeverOverlap() {
    long customer = signedIn.customerId("SCH-C");
    sites.putSite(
        TEST,
        "SCH-SITE",
        customer,
        new SiteDetails("Site", "UTC", null, null, null, null, null, null, null),
        EmptyValues.KEEP);
    Site site = sites.getSite("SCH-SITE");

    assertThat(bills.put(TEST, site, bill("2025-07-01", "2025-08-01", "100.00", null)))
        .isEqualTo(Outcome.ADDED);
    assertThat(bills.put(TEST, site, bill("2025-07-01", "2025-08-01", "100", null)))
        .isEqualTo(Outcome.UNCHANGED);
    assertThat(bills.put(TEST, site, bill("2025-07-01", "2025-08-01", null, "12.5")))
        .isEqualTo(Outcome.CHANGED);
    assertThat(bills.put(TEST, site, bill("2025-08-01", "2025-09-01", "90", null)))
        .isEqualTo(Outcome.ADDED);
    assertThatThrownBy(() -> bills.put(TEST, site, bill("2025-08-15", "2025-09-15", "90", null)))
        .isInstanceOf(TariffException.class)
        .hasMessageContaining("overlaps the one from 2025-08-01 to 2025-09-01");
    assertThat(bills.list(site, JULY, LocalDate.of(2025, 7, 2)))
        .singleElement()
        .satisfies(
            bill -> {
              assertThat(bill.amount()).isEqualByComparingTo("100");
              assertThat(bill.creditAmount()).isEqualByComparingTo("12.5");
            });
  }

  private static UtilityBill bill(String from, String to, String amount, String credit) {
    return new UtilityBill(
        Service.SEWER,
        LocalDate.parse(from),
        LocalDate.parse(to),
        null,
        amount == null ? null : new BigDecimal(amount),
        credit == null ? null : new BigDecimal(credit),
        null);
  }

  static ScheduleRows rows(String code, String sewerPercent) {
    return new ScheduleRows(
        List.of(
            new VersionRow(
                "v",
                code,
                "sewer",
                JULY,
                "kgal",
                "Sewer of " + code,
                1,
                new BigDecimal("25"),
                new BigDecimal("3"),
                new BigDecimal("2"),
                "percent-of-water",
                new BigDecimal(sewerPercent),
                null,
                "percent-of-makeup",
                new BigDecimal("80"),
                new BigDecimal("20"),
                null,
                "by 1 March")),
        List.of(
            new ChargeRow("c1", code, JULY, "service", 50.8, new BigDecimal("20")),
            new ChargeRow("c2", code, JULY, "service", 76.2, new BigDecimal("30"))),
        List.of(
            new BlockRow("b1", code, JULY, null, null, null, BigDecimal.ZERO, new BigDecimal("4")),
            new BlockRow(
                "b2", code, JULY, null, null, null, new BigDecimal("60"), new BigDecimal("5"))));
  }
}
