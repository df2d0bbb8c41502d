package towerledger.wording;

import static org.assertj.core.api.Assertions.assertThat;

import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.ValueSource;

class SpreadsheetGuardTest {

  @ParameterizedTest
  @ValueSource(
      strings = {
        "=1+1",
        "+x",
        "-x",
        "@SUM(A1)",
        "\tx",
        "\rx",
        "'=1",
        "''",
        "'",
        "'Twas",
        "x",
        "é=",
        "a'b"
      })
  void undoesWhatItDidAndLeavesNoFormula(String text) {
    String guarded = SpreadsheetGuard.apply(text);

    assertThat("=+-@\t\r".indexOf(guarded.charAt(0))).isNegative();
    assertThat(SpreadsheetGuard.undo(guarded)).isEqualTo(text);
  }

  @ParameterizedTest
  @ValueSource(strings = {"'Twas", "plain", "'"})
  void leavesUnguardedTextAlone(String text) {
    assertThat(SpreadsheetGuard.undo(text)).isEqualTo(text);
  }
}
