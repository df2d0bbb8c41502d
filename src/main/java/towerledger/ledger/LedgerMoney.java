package towerledger.ledger;

import java.math.BigDecimal;
import java.util.Currency;
import org.jspecify.annotations.Nullable;

/**
 * The money of a ledger row; null where water or rates are not known.
 *
 * @param currency currency of the customer
 * @param lossAmount the wasted water at the margin of the site's bill
 * @param lossLow its lower 95 % bound
 * @param lossHigh its upper 95 % bound
 * @param expectedWaterAmount what the water expected in sound state costs
 * @param creditAmount sewer credit the evaporated water deserves by the utility's rule
 * @param creditClaimed what the utility's bills show as credited
 */
public record LedgerMoney(
    Currency currency,
    @Nullable BigDecimal lossAmount,
    @Nullable BigDecimal lossLow,
    @Nullable BigDecimal lossHigh,
    @Nullable BigDecimal expectedWaterAmount,
    @Nullable BigDecimal creditAmount,
    @Nullable BigDecimal creditClaimed) {

  /** Nothing is known but the currency. */
  public static LedgerMoney unknown(Currency currency) {
    return new LedgerMoney(currency, null, null, null, null, null, null);
  }
}
