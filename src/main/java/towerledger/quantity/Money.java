package towerledger.quantity;

import java.math.BigDecimal;
import java.math.RoundingMode;
import java.util.Currency;

/**
 * An amount of money. Decimal, because bills are decimal: a rate of 3.34 must stay 3.34. Nothing is
 * rounded on the way; {@link #rounded()} is called once, where a bill rule rounds.
 *
 * @param amount exact decimal amount, of any sign
 * @param currency ISO 4217 currency
 */
public record Money(BigDecimal amount, Currency currency) {

  public static Money of(BigDecimal amount, Currency currency) {
    return new Money(amount, currency);
  }

  public static Money of(String amount, String currencyCode) {
    return new Money(new BigDecimal(amount), Currency.getInstance(currencyCode));
  }

  public static Money zero(Currency currency) {
    return new Money(BigDecimal.ZERO, currency);
  }

  /**
   * Sum of two amounts.
   *
   * @throws IllegalArgumentException when the currencies differ
   */
  public Money plus(Money other) {
    requireSameCurrency(other);
    return new Money(amount.add(other.amount), currency);
  }

  /**
   * Difference of two amounts.
   *
   * @throws IllegalArgumentException when the currencies differ
   */
  public Money minus(Money other) {
    requireSameCurrency(other);
    return new Money(amount.subtract(other.amount), currency);
  }

  /** This amount times an exact factor. */
  public Money times(BigDecimal factor) {
    return new Money(amount.multiply(factor), currency);
  }

  /** Rounded half-up to the currency's minor unit, as utility bills do. */
  public Money rounded() {
    return new Money(
        amount.setScale(Math.max(currency.getDefaultFractionDigits(), 0), RoundingMode.HALF_UP),
        currency);
  }

  private void requireSameCurrency(Money other) {
    if (!currency.equals(other.currency)) {
      throw new IllegalArgumentException(
          "cannot add %s to %s; convert one first".formatted(other.currency, currency));
    }
  }
}
