package towerledger.wording;

import static org.assertj.core.api.Assertions.assertThat;

import java.math.BigDecimal;
import java.time.YearMonth;
import java.util.Currency;
import org.junit.jupiter.api.Test;
import org.springframework.context.support.ResourceBundleMessageSource;
import towerledger.account.UnitPreference;
import towerledger.drawing.FigureText;
import towerledger.ledger.Doubt;
import towerledger.ledger.MonthReview;

/** Sums are told as their parts are, and nothing unknown as zero. */
class SumTextTest {

  private static final YearMonth OCTOBER = YearMonth.of(2026, 10);

  @Test
  void oneLopsidedLossIsToldInASumAsByItself() {
    assertThat(english().cost(sum(1000, 600, 0, "1380", new Doubt(1380, 120))))
        .isEqualTo("€1,400 (€0 … €1,500)");
  }

  @Test
  void wasteWithoutAPriceIsNotSaidToCostNothing() {
    MonthReview.Sum unpriced = sum(1000, 600, 1, "0", Doubt.NONE);

    assertThat(english().sentences("review", unpriced, OCTOBER, 1))
        .singleElement()
        .asString()
        .contains("What it cost cannot be said")
        .doesNotContain("€");
    assertThat(spanish().sentences("portal", unpriced, OCTOBER, 1))
        .singleElement()
        .asString()
        .contains("No se puede decir lo que costó")
        .doesNotContain("EUR");
    assertThat(english().cost(unpriced)).isEqualTo("not priced");
  }

  @Test
  void moreThanCameInIsNotSaidToBeExplained() {
    MonthReview.Sum less = sum(1000, 1010, 0, "5", Doubt.NONE);

    assertThat(english().sentences("review", less, OCTOBER, 1).get(0))
        .contains("Sound systems would have taken")
        .doesNotContain("explained");
    assertThat(english().sentences("review", sum(1000, 990, 0, "5", Doubt.NONE), OCTOBER, 1).get(0))
        .contains("is explained");
  }

  private static MonthReview.Sum sum(
      double makeup, double sound, int unpriced, String cost, Doubt doubt) {
    return new MonthReview.Sum(
        Currency.getInstance("EUR"),
        1,
        1,
        1,
        unpriced,
        makeup,
        sound,
        10,
        400,
        Doubt.NONE,
        new BigDecimal(cost),
        doubt,
        BigDecimal.ZERO);
  }

  private static SumText english() {
    return text("en");
  }

  private static SumText spanish() {
    return text("es");
  }

  private static SumText text(String language) {
    ResourceBundleMessageSource messages = new ResourceBundleMessageSource();
    messages.setBasename("messages");
    messages.setDefaultEncoding("UTF-8");
    FigureText figures = FigureText.of(UnitPreference.SI, language);
    return new SumText(new Words(messages, figures.locale()), figures);
  }
}
