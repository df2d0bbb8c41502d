package towerledger.wording;

import java.math.BigDecimal;
import java.util.Currency;
import org.jspecify.annotations.Nullable;
import towerledger.drawing.FigureText;
import towerledger.ledger.LedgerEntry;
import towerledger.quantity.Money;

/** Money of ledger rows as it is read. */
public final class MoneyText {

  private MoneyText() {}

  /**
   * Cost of a month's waste with its interval; 'none' for a sound month, not known where nothing
   * can be told.
   */
  public static String loss(LedgerEntry entry, FigureText text, Words words) {
    BigDecimal amount = entry.money().lossAmount();
    if (!entry.verdict().waste()) {
      return words.of(entry.verdict().isMissing() ? "figure.unknown" : "money.none");
    }
    if (amount == null) {
      return words.of("money.unpriced");
    }
    return text.estimate(
        money(entry, amount),
        money(entry, orElse(entry.money().lossLow(), amount)),
        money(entry, orElse(entry.money().lossHigh(), amount)));
  }

  /**
   * A sewer credit, or that none is worked out: the utility's rule gives none, or a figure that it
   * needs is missing.
   */
  public static String credit(
      @Nullable BigDecimal amount, Currency currency, FigureText text, Words words) {
    return amount == null ? words.of("money.no-credit") : text.money(new Money(amount, currency));
  }

  /** An amount, or that it is not known. */
  public static String amount(
      @Nullable BigDecimal amount, Currency currency, FigureText text, Words words) {
    return amount == null ? words.of("figure.unknown") : text.money(new Money(amount, currency));
  }

  private static BigDecimal orElse(@Nullable BigDecimal amount, BigDecimal other) {
    return amount == null ? other : amount;
  }

  private static Money money(LedgerEntry entry, BigDecimal amount) {
    return new Money(amount, entry.money().currency());
  }
}
