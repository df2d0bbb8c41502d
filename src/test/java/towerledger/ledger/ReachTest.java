package towerledger.ledger;

import static org.assertj.core.api.Assertions.assertThat;

import java.time.YearMonth;
import org.junit.jupiter.api.Test;

class ReachTest {

  private final Ledger.Reach reach =
      new Ledger.Reach(YearMonth.of(2024, 5), YearMonth.of(2026, 10));

  @Test
  void leadsToTheYearsBesideOneWithin() {
    assertThat(reach.yearBefore(2025)).contains(2024);
    assertThat(reach.yearAfter(2025)).contains(2026);
    assertThat(reach.yearBefore(2024)).isEmpty();
    assertThat(reach.yearAfter(2026)).isEmpty();
  }

  @Test
  void leadsBackFromBeyondToTheNearestYearOrMonth() {
    assertThat(reach.yearBefore(2150)).contains(2026);
    assertThat(reach.yearAfter(2150)).isEmpty();
    assertThat(reach.yearAfter(1990)).contains(2024);
    assertThat(reach.yearBefore(1990)).isEmpty();
    assertThat(reach.before(YearMonth.of(2150, 1))).contains(YearMonth.of(2026, 10));
    assertThat(reach.after(YearMonth.of(1990, 1))).contains(YearMonth.of(2024, 5));
  }
}
