package towerledger.page;

import static org.assertj.core.api.Assertions.assertThat;

import java.util.List;
import org.junit.jupiter.api.Test;

class FigureTableTest {

  private static final FigureTable TABLE =
      new FigureTable(
          List.of("Month", "Makeup & more, gal"),
          List.of(List.of("May <2026>", "1,200"), List.of("June", "–")));

  @Test
  void figuresStandUnderTheirHeadingAndUnknownOnesAside() {
    assertThat(TABLE.figures("Makeup"))
        .startsWith("<table><caption class=\"unseen\">Makeup</caption>")
        .contains("<th scope=\"col\" class=\"number\">Makeup &amp; more, gal</th>")
        .contains("<th scope=\"row\">May &lt;2026&gt;</th>")
        .contains("<td class=\"number\">1,200</td>")
        .contains("<td class=\"number aside\">–</td>");
  }

  @Test
  void wordsAreNotSetAsNumbersButTheLastColumnOfABillIs() {
    assertThat(TABLE.words("Things")).doesNotContain("number");
    assertThat(TABLE.bill("Lines")).contains("<td class=\"number\">1,200</td>");
  }

  @Test
  void aTableWiderThanAPhoneFolds() {
    List<String> five = List.of("a", "b", "c", "d", "e");
    assertThat(new FigureTable(five, List.of(five)).figures("Wide"))
        .startsWith("<table class=\"folds\" role=\"table\">")
        .contains("<td role=\"cell\" class=\"number\" data-heading=\"b\">b</td>");
    assertThat(TABLE.figures("Narrow")).doesNotContain("folds");
  }
}
