package towerledger.finding;

import static org.assertj.core.api.Assertions.assertThat;
import static org.assertj.core.api.Assertions.within;
import static towerledger.balance.Cause.FILL_VALVE_LEAKING_BY;
import static towerledger.finding.Months.JANUARY;
import static towerledger.finding.Months.month;

import java.util.List;
import java.util.stream.Stream;
import org.junit.jupiter.api.Test;
import towerledger.ledger.LedgerEntry;

class SavingTest {

  private static final List<LedgerEntry> BEFORE =
      List.of(
          month(1, 31_000, 6_200, FILL_VALVE_LEAKING_BY),
          month(2, 28_000, 5_600, FILL_VALVE_LEAKING_BY));

  private static Saving since(LedgerEntry... after) {
    return Saving.since(
            new Episode(BEFORE),
            Stream.concat(BEFORE.stream(), Stream.of(after)).toList(),
            JANUARY.plusMonths(2))
        .orElseThrow();
  }

  /**
   * By hand: before, 59,000 L in 59 days = 1,000 L a day ± 200; after, 0 ± 200 a day in April's 30
   * days: 30,000 L ± √2 · 200 · 30 = 8,485.
   */
  @Test
  void verifiesASavingWhoseIntervalIsClearOfZero() {
    Saving saving = since(month(3, 15_000, 6_000), month(4, 0, 6_000));

    assertThat(saving.months()).isEqualTo(1);
    assertThat(saving.litres().value()).isCloseTo(30_000, within(1e-6));
    assertThat(saving.litres().low()).isCloseTo(30_000 - 8_485.3, within(0.1));
    assertThat(saving.status()).isEqualTo(FindingStatus.VERIFIED);
  }

  @Test
  void saysWhenNothingIsProvenYet() {
    assertThat(since(month(4, 15_000, 30_000)).status()).isEqualTo(FindingStatus.NOT_YET_PROVABLE);
  }

  @Test
  void saysWhenARepairStoppedNothing() {
    Saving saving = since(month(4, 31_000, 6_000, FILL_VALVE_LEAKING_BY));

    assertThat(saving.litres().value()).isNegative();
    assertThat(saving.status()).isEqualTo(FindingStatus.NO_SAVING_SEEN);
  }

  @Test
  void waitsForAWholeMonthAfterTheRepair() {
    List<LedgerEntry> standing =
        Stream.concat(BEFORE.stream(), Stream.of(month(3, 1_000, 6_000))).toList();

    assertThat(Saving.since(new Episode(BEFORE), standing, JANUARY.plusMonths(2))).isEmpty();
  }
}
