package towerledger.ledger;

import static org.assertj.core.api.Assertions.assertThat;
import static org.assertj.core.api.Assertions.within;

import java.math.BigDecimal;
import java.time.Instant;
import java.time.LocalDate;
import java.time.YearMonth;
import java.time.ZoneOffset;
import java.util.Currency;
import java.util.List;
import java.util.Map;
import org.junit.jupiter.api.Test;
import towerledger.balance.Cause;
import towerledger.balance.EvidenceGrade;
import towerledger.balance.VolumeEstimate;
import towerledger.quantity.Span;
import towerledger.quantity.Volume;
import towerledger.tariff.Service;
import towerledger.tariff.TowerWater;
import towerledger.tariff.UtilityBill;

/** What a claim is held to: evaporation and drift of the billed days at their upper bound. */
class BilledWaterTest {

  private static final YearMonth JUNE = YearMonth.of(2025, 6);
  private static final YearMonth JULY = YearMonth.of(2025, 7);

  @Test
  void holdsAClaimToTheBoundOfEvaporationItselfAndTheDrift() {
    TowerWater tower =
        tower(JULY.atDay(1), JULY.plusMonths(1).atDay(1), Map.of(JULY, bound(300, 360)));

    // by hand: best 300 + 3, bound 360 + 3; the expected makeup's bound alone would say 378.75
    assertThat(tower.modelled()).isNotNull();
    assertThat(litres(tower.modelled())).isCloseTo(303, within(1e-9));
    assertThat(litres(tower.modelledUpper())).isCloseTo(363, within(1e-9));
  }

  @Test
  void takesEachMonthByItsBilledDays() {
    TowerWater tower =
        tower(
            LocalDate.of(2025, 6, 16),
            LocalDate.of(2025, 7, 17),
            Map.of(JUNE, bound(300, 330), JULY, bound(300, 360)));

    // by hand: 15 of 30 days of 333 and 16 of 31 days of 363
    assertThat(litres(tower.modelledUpper()))
        .isCloseTo(333 * 15 / 30.0 + 363 * 16 / 31.0, within(1e-9));
  }

  @Test
  void fallsBackToTheExpectedMakeupWhereNoBoundWasKept() {
    TowerWater tower = tower(JULY.atDay(1), JULY.plusMonths(1).atDay(1), Map.of());

    // by hand: 303 × 500 / 400
    assertThat(litres(tower.modelledUpper())).isCloseTo(378.75, within(1e-9));
  }

  private static TowerWater tower(
      LocalDate from, LocalDate to, Map<YearMonth, VolumeEstimate> bounds) {
    var bill = new UtilityBill(Service.SEWER, from, to, BigDecimal.TEN, null, null, null);
    var water =
        new BilledWater(
            bill,
            Span.of(
                from.atStartOfDay(ZoneOffset.UTC).toInstant(),
                to.atStartOfDay(ZoneOffset.UTC).toInstant()),
            ZoneOffset.UTC,
            List.of(),
            List.of(),
            Map.of(
                "T",
                new BilledWater.OfSystem(
                    List.of(), List.of(), List.of(entry(JUNE), entry(JULY)), bounds)));
    return water.use(bill, List.of(), null, null).towers().get(0);
  }

  private static VolumeEstimate bound(double best, double high) {
    return VolumeEstimate.ofLitres(best, 2 * best - high, high);
  }

  private static double litres(@org.jspecify.annotations.Nullable Volume volume) {
    return volume == null ? Double.NaN : volume.litres();
  }

  private static LedgerEntry entry(YearMonth month) {
    return new LedgerEntry(
        new LedgerEntry.Of(1, "T", "Tower", "S", "Site", "C", "Customer"),
        month,
        1,
        LedgerStatus.CLOSED,
        "test",
        "test",
        Instant.EPOCH,
        EvidenceGrade.B,
        new LedgerWater(
            null, 400.0, 300.0, 500.0, null, null, null, 300.0, 3.0, null, null, null, null, null,
            null, null, null, null, null, null, null, null, null),
        new LedgerVerdict(false, false, Cause.NONE, 0.9, null, null, List.of(Cause.NONE), null),
        LedgerMoney.unknown(Currency.getInstance("USD")));
  }
}
