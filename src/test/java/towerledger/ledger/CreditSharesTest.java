package towerledger.ledger;

import static org.assertj.core.api.Assertions.assertThat;

import java.math.BigDecimal;
import java.util.Currency;
import java.util.List;
import java.util.Map;
import org.junit.jupiter.api.Test;

class CreditSharesTest {

  private static final List<String> SYSTEMS = List.of("A", "B", "C");

  @Test
  void leavesNothingUnclaimedWhereTheBillGaveInFull() {
    Map<String, BigDecimal> due = due("100.00", "20.00", "0.00");

    Map<String, BigDecimal> shares = CreditShares.of(new BigDecimal("120.00"), SYSTEMS, due);

    assertThat(shares).isEqualTo(due);
    shares.forEach(
        (system, given) ->
            assertThat(money(due.get(system), given).creditUnclaimed()).isEqualByComparingTo("0"));
  }

  @Test
  void sharesToTheCent() {
    Map<String, BigDecimal> shares =
        CreditShares.of(new BigDecimal("100.00"), SYSTEMS, due("1.00", "1.00", "1.00"));

    // by hand: 33.33, half of 66.67 rounded up, and what is left
    assertThat(shares.values())
        .containsExactly(new BigDecimal("33.33"), new BigDecimal("33.34"), new BigDecimal("33.33"));
  }

  @Test
  void sharesEquallyWhereNothingIsDue() {
    assertThat(CreditShares.of(new BigDecimal("9"), SYSTEMS, Map.of()).values())
        .containsOnly(new BigDecimal("3.00"));
  }

  @Test
  void letsNoMonthThatGotTooMuchPayForAnother() {
    LedgerMoney tooMuch = money(new BigDecimal("10.00"), new BigDecimal("50.00"));
    LedgerMoney nothing = money(new BigDecimal("40.00"), null);

    assertThat(tooMuch.creditUnclaimed()).isEqualByComparingTo("0");
    assertThat(nothing.creditUnclaimed()).isEqualByComparingTo("40.00");
    assertThat(money(null, new BigDecimal("5")).creditUnclaimed()).as("nothing known").isNull();
  }

  private static LedgerMoney money(
      @org.jspecify.annotations.Nullable BigDecimal due,
      @org.jspecify.annotations.Nullable BigDecimal given) {
    return new LedgerMoney(Currency.getInstance("USD"), null, null, null, null, due, given);
  }

  private static Map<String, BigDecimal> due(String a, String b, String c) {
    return Map.of("A", new BigDecimal(a), "B", new BigDecimal(b), "C", new BigDecimal(c));
  }
}
