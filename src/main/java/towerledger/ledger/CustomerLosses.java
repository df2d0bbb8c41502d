package towerledger.ledger;

import java.math.BigDecimal;
import java.util.Currency;
import java.util.List;

/**
 * Money lost by customer in one month and currency.
 *
 * @param currency currency of all amounts
 * @param dearest customers who lost most, dearest first
 * @param customers how many lost anything
 * @param amount what all of them lost
 */
public record CustomerLosses(
    Currency currency, List<Loss> dearest, int customers, BigDecimal amount) {

  /** Money lost at one customer. */
  public record Loss(String customer, String name, BigDecimal amount, Doubt doubt) {}

  /** What all but so many of the dearest lost. */
  public BigDecimal amountBeyond(int named) {
    return dearest.stream().limit(named).map(Loss::amount).reduce(amount, BigDecimal::subtract);
  }
}
