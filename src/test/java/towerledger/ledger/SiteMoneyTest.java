package towerledger.ledger;

import static org.assertj.core.api.Assertions.assertThat;

import java.math.BigDecimal;
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
import towerledger.quantity.Volume;
import towerledger.quantity.VolumeUnit;
import towerledger.tariff.RateSchedule;
import towerledger.tariff.RateVersion;
import towerledger.tariff.Service;
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

  private static LedgerMoney price(String units, double makeup, VolumeEstimate loss) {
    var bill =
        new UtilityBill(
            Service.WATER,
            LocalDate.of(2025, 9, 1),
            LocalDate.of(2025, 11, 1),
            new BigDecimal(units),
            null,
            null,
            null);
    return new SiteMoney(
            Currency.getInstance("USD"),
            List.of(WATER),
            null,
            List.of(),
            List.of(bill),
            ZoneOffset.UTC)
        .price(OCTOBER, Map.of("T", verdict(makeup * 1000, loss)), Map.of())
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
