package towerledger.ledger;

import java.math.BigDecimal;
import java.util.List;

/**
 * What customers lost in one currency, without their names: a customer is renamed without a
 * reckoning.
 *
 * @param currency ISO code of the currency
 * @param dearest those who lost most, dearest first
 * @param customers how many lost anything
 * @param amount what all of them lost
 */
public record RankedLosses(String currency, List<Lost> dearest, int customers, BigDecimal amount) {

  /**
   * What one customer lost.
   *
   * @param customer key of the customer
   * @param doubt of the amount
   */
  public record Lost(long customer, BigDecimal amount, Doubt doubt) {}
}
