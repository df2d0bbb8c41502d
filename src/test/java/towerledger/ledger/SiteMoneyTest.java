package towerledger.ledger;

import static org.assertj.core.api.Assertions.assertThat;

import java.math.BigDecimal;
import java.time.Instant;
import java.time.LocalDate;
import java.time.YearMonth;
import java.time.ZoneOffset;
import java.util.Currency;
import java.util.List;
import java.util.Map;
import java.util.Optional;
import java.util.OptionalDouble;
import org.junit.jupiter.api.Test;
import towerledger.balance.Cause;
import towerledger.balance.CauseOpinion;
import towerledger.balance.EvidenceGrade;
import towerledger.balance.Judgement;
import towerledger.balance.MonthVerdict;
import towerledger.balance.VolumeEstimate;
import towerledger.balance.WaterFigures;
import towerledger.balance.facts.IntervalVolumes;
import towerledger.balance.facts.MeterFacts;
import towerledger.balance.facts.RegisterVolume;
import towerledger.balance.facts.SystemAttributes;
import towerledger.balance.facts.SystemFacts;
import towerledger.balance.facts.TowerFacts;
import towerledger.balance.facts.WeatherHours;
import towerledger.quantity.Span;
import towerledger.quantity.Volume;
import towerledger.quantity.VolumeUnit;
import towerledger.tariff.RateSchedule;
import towerledger.tariff.RateVersion;
import towerledger.tariff.Season;
import towerledger.tariff.Service;
import towerledger.tariff.SewerRule;
import towerledger.tariff.UtilityBill;

/** Worked by hand: water at 2 a cubic metre up to 100 a month, at 3 above; no fixed charge. */
class SiteMoneyTest {

  private static final YearMonth OCTOBER = YearMonth.of(2025, 10);

  private static final RateSchedule WATER =
      RateSchedule.of(
          "W",
          Service.WATER,
          RateVersion.from(LocalDate.of(2020, 1, 1), VolumeUnit.CUBIC_METRE)
              .withBlocks("0", "2.00", "100", "3.00"));

  @Test
  void pricesALossAtTheMarginOfWhatTheBillSaysTheSiteUsed() {
    // 610 m³ over 61 days: 310 in October; 20, 15 and 30 of it lost, all above 100
    LedgerMoney money = price("610", 200, VolumeEstimate.ofLitres(20_000, 15_000, 30_000));

    assertThat(money.lossAmount()).isEqualByComparingTo("60.00");
    assertThat(money.lossLow()).isEqualByComparingTo("45.00");
    assertThat(money.lossHigh()).isEqualByComparingTo("90.00");
  }

  @Test
  void aBillSharedOutByDaysNeverGivesAMonthLessThanItsTowersTook() {
    // 183 m³ over 61 days: 93 in October, when the tower alone took 180, most of it lost
    LedgerMoney money = price("183", 180, VolumeEstimate.ofLitres(150_000, 140_000, 160_000));

    // 80 at 3, and 70, 60, 80 at 2
    assertThat(money.lossAmount()).isEqualByComparingTo("380.00");
    assertThat(money.lossLow()).isEqualByComparingTo("360.00");
    assertThat(money.lossHigh()).isEqualByComparingTo("400.00");
  }

  @Test
  void whatABillCountsBesidesTheTowersIsOfTheWholeSitesUse() {
    // Sewer at 4 up to the winter's 120 m³ in two months, 60 in one. The bill of September and
    // October tells 260: 40 and 180 are the tower's, so 40 are not, 20.33 of them in October.
    LedgerMoney money =
        price(
            List.of(WATER, SEWER),
            List.of(
                bill(LocalDate.of(2025, 1, 1), LocalDate.of(2025, 3, 1), "120"),
                bill(LocalDate.of(2025, 9, 1), LocalDate.of(2025, 11, 1), "260")),
            180,
            VolumeEstimate.ofLitres(150_000, 140_000, 160_000),
            Map.of("T", tower(40, 180)));

    // water: 200.33 down to 50.33, 100.33 at 3 and 49.67 at 2; sewer: 60 down to 50.33, at 4
    assertThat(money.lossAmount()).isEqualByComparingTo("439.02");
  }

  @Test
  void aBillThatTellsOfNoCreditIsNotTakenToHaveGivenNone() {
    assertThat(credited(null)).isNull();
    assertThat(credited(new BigDecimal("62.00"))).isEqualByComparingTo("62.00");
  }

  private static BigDecimal credited(BigDecimal onTheBill) {
    var sewer =
        new UtilityBill(
            Service.SEWER,
            LocalDate.of(2025, 10, 1),
            LocalDate.of(2025, 11, 1),
            null,
            null,
            onTheBill,
            null);
    return price(
            List.of(WATER, SEWER), List.of(sewer), 180, VolumeEstimate.ofLitres(0, 0, 0), Map.of())
        .creditClaimed();
  }

  private static final RateSchedule SEWER =
      RateSchedule.of(
          "S",
          Service.SEWER,
          RateVersion.from(LocalDate.of(2020, 1, 1), VolumeUnit.CUBIC_METRE)
              .withBlocks("0", "4.00")
              .withSewer(SewerRule.winterAverage(new Season(1, 2))));

  private static UtilityBill bill(LocalDate from, LocalDate to, String units) {
    return new UtilityBill(Service.WATER, from, to, new BigDecimal(units), null, null, null);
  }

  /** A system whose makeup meter was read at the turn of each month, m³. */
  private static SystemFacts tower(double september, double october) {
    Instant first = Instant.parse("2025-09-01T00:00:00Z");
    Instant turn = Instant.parse("2025-10-01T00:00:00Z");
    Instant last = Instant.parse("2025-11-01T00:00:00Z");
    var meter =
        new MeterFacts(
            "M",
            MeterFacts.Role.MAKEUP,
            Optional.empty(),
            OptionalDouble.empty(),
            OptionalDouble.empty(),
            Optional.empty(),
            Optional.empty(),
            OptionalDouble.empty(),
            List.of(
                RegisterVolume.read(Span.of(first, turn), september * 1000),
                RegisterVolume.read(Span.of(turn, last), october * 1000)),
            IntervalVolumes.none());
    return new SystemFacts(
        "T",
        ZoneOffset.UTC,
        SystemAttributes.openTower(),
        List.of(TowerFacts.ofNominalHeat("T", 1e6)),
        List.of(),
        WeatherHours.none(),
        List.of(),
        List.of(meter),
        List.of(),
        List.of(),
        List.of());
  }

  private static LedgerMoney price(String units, double makeup, VolumeEstimate loss) {
    return price(
        List.of(WATER),
        List.of(bill(LocalDate.of(2025, 9, 1), LocalDate.of(2025, 11, 1), units)),
        makeup,
        loss,
        Map.of());
  }

  private static LedgerMoney price(
      List<RateSchedule> schedules,
      List<UtilityBill> bills,
      double makeup,
      VolumeEstimate loss,
      Map<String, SystemFacts> facts) {
    return new SiteMoney(
            Currency.getInstance("USD"), schedules, null, List.of(), bills, ZoneOffset.UTC)
        .price(OCTOBER, Map.of("T", verdict(makeup * 1000, loss)), facts)
        .get("T")
        .money();
  }

  private static MonthVerdict verdict(double makeupLitres, VolumeEstimate loss) {
    Optional<Volume> none = Optional.empty();
    var water =
        new WaterFigures(
            Optional.of(VolumeEstimate.ofLitres(makeupLitres, makeupLitres, makeupLitres)),
            Optional.empty(),
            Optional.empty(),
            Optional.empty(),
            none,
            none,
            none,
            none,
            none,
            none,
            none,
            none,
            none,
            none,
            Optional.of(loss),
            OptionalDouble.empty(),
            OptionalDouble.empty());
    var opinion = new CauseOpinion(Cause.FILL_VALVE_STUCK_OPEN, 1, List.of(), List.of());
    var judgement =
        new Judgement(
            true,
            true,
            List.of(opinion),
            List.of(Cause.FILL_VALVE_STUCK_OPEN),
            Optional.empty(),
            Optional.empty(),
            Optional.empty(),
            Optional.empty());
    return new MonthVerdict(
        OCTOBER, EvidenceGrade.B, water, judgement, List.of(), List.of(), List.of(), List.of());
  }
}
