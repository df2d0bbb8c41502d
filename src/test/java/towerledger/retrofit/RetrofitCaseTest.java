package towerledger.retrofit;

import static org.assertj.core.api.Assertions.assertThat;
import static org.assertj.core.api.Assertions.assertThatThrownBy;
import static org.assertj.core.api.Assertions.within;

import org.junit.jupiter.api.Test;

class RetrofitCaseTest {

  /**
   * An annuity of 1,000 over 5 years at 6 % is worth 4,212.36: the factor 4.2124 of any table of
   * present values of an annuity.
   */
  @Test
  void agreesWithTheTableOfAnnuities() {
    RetrofitCase worked = new RetrofitCase(4_000, 1_000, 0, 0, 0.06, 5);

    assertThat(worked.netPresentValue()).isCloseTo(212.36, within(0.01));
    assertThat(worked.simplePaybackYears().orElseThrow()).isCloseTo(4, within(1e-12));
    assertThat(worked.chanceOfBreakEven()).isEqualTo(1);
    assertThat(worked.cashFlow()).hasSize(5);
    assertThat(worked.cashFlow().get(4).balance()).isCloseTo(212.36, within(0.01));
  }

  /** Rates that rise as fast as money is discounted leave every year worth 1,000 / 1.05. */
  @Test
  void letsEscalationMeetDiscount() {
    RetrofitCase worked = new RetrofitCase(1, 1_000, 0, 0.05, 0.05, 10);

    assertThat(worked.netPresentValue()).isCloseTo(10 * 1_000 / 1.05 - 1, within(1e-6));
  }

  /** The standard normal distribution: 84.13 % lie below one standard deviation. */
  @Test
  void givesTheChanceOfBreakEven() {
    // No discount, one year: the value is 100 with a standard uncertainty of 100.
    RetrofitCase worked = new RetrofitCase(900, 1_000, 100, 0, 0, 1);

    assertThat(worked.chanceOfBreakEven()).isCloseTo(0.8413, within(0.0001));
    assertThat(new RetrofitCase(1_000, 1_000, 100, 0, 0, 1).chanceOfBreakEven())
        .isCloseTo(0.5, within(1e-12));
  }

  @Test
  void neverPaysBackWithoutASaving() {
    RetrofitCase worked = new RetrofitCase(900, 0, 0, 0, 0.06, 10);

    assertThat(worked.simplePaybackYears()).isEmpty();
    assertThat(worked.chanceOfBreakEven()).isZero();
  }

  @Test
  void refusesWhatCannotBe() {
    assertThatThrownBy(() -> new RetrofitCase(0, 1, 0, 0, 0, 5)).hasMessageContaining("cost");
    assertThatThrownBy(() -> new RetrofitCase(1, 1, 0, 0, 0, 31)).hasMessageContaining("years");
    assertThatThrownBy(() -> new RetrofitCase(1, 1, Double.NaN, 0, 0, 3))
        .hasMessageContaining("uncertainty");
  }
}
