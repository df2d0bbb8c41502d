package towerledger.page;

import static org.assertj.core.api.Assertions.assertThat;
import static org.assertj.core.api.Assertions.assertThatIllegalArgumentException;

import java.time.YearMonth;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.ValueSource;

class MonthParameterTest {

  @Test
  void takesAMonthAsAddressesWriteIt() {
    assertThat(new MonthParameter().convert("2026-10")).isEqualTo(YearMonth.of(2026, 10));
  }

  /** Java's own reader takes the first three: the month after the last of them does not exist. */
  @ParameterizedTest
  @ValueSource(
      strings = {"+99999-12", "-0001-01", "+999999999-12", "2026-13", "2026-00", "2026-1", " ", ""})
  void takesNoOther(String text) {
    assertThat(MonthParameter.find(text)).isEmpty();
    assertThatIllegalArgumentException().isThrownBy(() -> new MonthParameter().convert(text));
  }
}
