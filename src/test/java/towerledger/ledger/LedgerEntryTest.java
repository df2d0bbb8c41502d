package towerledger.ledger;

import static org.assertj.core.api.Assertions.assertThat;

import java.math.BigDecimal;
import java.time.Instant;
import java.time.YearMonth;
import java.util.Currency;
import java.util.List;
import org.jspecify.annotations.Nullable;
import org.junit.jupiter.api.Test;
import towerledger.balance.Cause;

/** What scripts and files sum is what pages sum: waste alone. */
class LedgerEntryTest {

  @Test
  void onlyAMonthWithWasteCostAnything() {
    BigDecimal doubt = new BigDecimal("0.16");

    assertThat(entry(true, doubt).wasteAmount()).isEqualTo("0.16");
    assertThat(entry(false, doubt).wasteAmount()).isEqualTo("0.00");
    assertThat(entry(false, null).wasteAmount()).isNull();
    assertThat(entry(true, null).wasteAmount()).isNull();
  }

  private static LedgerEntry entry(boolean waste, @Nullable BigDecimal loss) {
    return new LedgerEntry(
        new LedgerEntry.Of(1, "T", "Tower", "S", "Site", "C", "Customer"),
        YearMonth.of(2026, 10),
        1,
        LedgerStatus.CLOSED,
        "test",
        "test",
        Instant.EPOCH,
        null,
        new LedgerWater(
            null, null, null, null, null, null, null, null, null, null, null, null, null, null,
            null, null, null, null, null, null, null, null, null),
        new LedgerVerdict(waste, waste, Cause.NONE, 1, null, null, List.of(), null),
        new LedgerMoney(Currency.getInstance("USD"), loss, null, null, null, null, null));
  }
}
