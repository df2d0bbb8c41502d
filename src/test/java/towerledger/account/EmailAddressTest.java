package towerledger.account;

import static org.assertj.core.api.Assertions.assertThat;
import static org.assertj.core.api.Assertions.assertThatThrownBy;

import org.junit.jupiter.api.Test;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.ValueSource;

class EmailAddressTest {

  @Test
  void isTheSameInAnyCaseAndWithBlanksAround() {
    assertThat(EmailAddress.of("  Ann.Miller@Firm.TEST "))
        .isEqualTo(EmailAddress.of("ann.miller@firm.test"));
    assertThat(EmailAddress.of("admin@localhost").value()).isEqualTo("admin@localhost");
  }

  /** Kelvin sign, Cyrillic a, dotted capital I, full-width letters, a right-to-left mark. */
  @ParameterizedTest
  @ValueSource(
      strings = {
        "\u212Aate@firm.test",
        "\u0430nn@firm.test",
        "\u0130an@firm.test",
        "\uFF41nn@firm.test",
        "ann\u200F@firm.test"
      })
  void refusesLookAlikes(String typed) {
    assertThat(EmailAddress.find(typed)).isEmpty();
    assertThatThrownBy(() -> EmailAddress.of(typed)).isInstanceOf(AccountException.class);
  }

  @ParameterizedTest
  @ValueSource(
      strings = {
        "",
        "ann",
        "@firm.test",
        "ann@",
        "a b@firm.test",
        "ann@firm..test",
        ".ann@firm.test",
        "ann@-firm.test",
        "ann@firm.test\r\nBcc: other@firm.test",
        "\"ann\"@firm.test"
      })
  void refusesWhatIsNoAddress(String typed) {
    assertThat(EmailAddress.find(typed)).isEmpty();
  }

  @Test
  void refusesAMillionCharacters() {
    assertThatThrownBy(() -> EmailAddress.of("a".repeat(1_000_000) + "@firm.test"))
        .isInstanceOf(AccountException.class)
        .message()
        .hasSizeLessThan(300);
  }
}
