package towerledger.wording;

import java.math.BigDecimal;
import java.time.YearMonth;
import java.util.ArrayList;
import java.util.List;
import towerledger.drawing.FigureText;
import towerledger.ledger.Doubt;
import towerledger.ledger.MonthReview;
import towerledger.quantity.Money;
import towerledger.quantity.Volume;

/**
 * What months of several systems add up to, as it is read.
 *
 * @param words texts in the reader's language
 * @param text figures in the reader's units
 */
public record SumText(Words words, FigureText text) {

  /**
   * The month in sentences.
   *
   * @param whose {@code review} or {@code portal}: where the sentence stands
   * @param systems how many systems it counts
   */
  public List<String> sentences(String whose, MonthReview.Sum sum, YearMonth month, int systems) {
    List<String> said = new ArrayList<>();
    String kind =
        sum.metered() == 0
            ? ".unmetered"
            : sum.wasting() == 0 ? ".sound" : isPriced(sum) ? "" : ".unpriced";
    said.add(
        words.of(
            whose + ".sentence" + kind,
            text.month(month),
            systems,
            makeup(sum),
            explained(sum),
            wasted(sum),
            cost(sum),
            sum.wasting(),
            sum.soundLitres() > sum.makeupLitres() ? 1 : 0));
    if (kind.isEmpty() && sum.unpriced() > 0) {
      said.add(words.of("report.lead.partly", sum.unpriced()));
    }
    return said;
  }

  /** Metered makeup. */
  public String makeup(MonthReview.Sum sum) {
    return text.volume(Volume.ofLitres(sum.makeupLitres()));
  }

  /** What sound systems would have taken, with its interval. */
  public String explained(MonthReview.Sum sum) {
    return water(
        sum.soundLitres(), new Doubt(sum.soundHalfWidthLitres(), sum.soundHalfWidthLitres()), text);
  }

  /** What was wasted, with its interval. */
  public String wasted(MonthReview.Sum sum) {
    return water(sum.lossLitres(), sum.lossDoubt(), text);
  }

  /** What the waste cost, with its interval; that it is not priced where none of it is. */
  public String cost(MonthReview.Sum sum) {
    return isPriced(sum)
        ? cost(new Money(sum.lossAmount(), sum.currency()), sum.lossAmountDoubt(), text)
        : words.of("money.unpriced");
  }

  /** Whether any of the waste has a price. */
  public static boolean isPriced(MonthReview.Sum sum) {
    return sum.unpriced() < sum.wasting();
  }

  /** An amount with its interval. */
  public static String cost(Money amount, Doubt doubt, FigureText text) {
    return text.estimate(
        amount,
        new Money(amount.amount().subtract(BigDecimal.valueOf(doubt.below())), amount.currency()),
        new Money(amount.amount().add(BigDecimal.valueOf(doubt.above())), amount.currency()));
  }

  /** A volume in litres with its interval. */
  public static String water(double litres, Doubt doubt, FigureText text) {
    return text.estimate(
        Volume.ofLitres(litres),
        Volume.ofLitres(litres - doubt.below()),
        Volume.ofLitres(litres + doubt.above()));
  }
}
