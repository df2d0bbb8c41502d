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
 * @param creditAmount sewer credit the evaporated water deserves by the utility's rule; what is at
 *     stake where no meter shows the makeup
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

  /**
   * The same as {@link #creditUnclaimed()} for SQL over {@code ledger_month m}: what is still to be
   * claimed of a row, null where nothing is known to be due or no meter shows the makeup ({@link
   * LedgerEntry#creditUnclaimed()}).
   */
  public static final String UNCLAIMED_SQL =
      """
      CASE WHEN m.makeup_l IS NULL THEN NULL
        WHEN m.evaporation_credit_amount > COALESCE(m.credit_claimed_amount, 0)
        THEN m.evaporation_credit_amount - COALESCE(m.credit_claimed_amount, 0)
        WHEN m.evaporation_credit_amount IS NOT NULL THEN 0 END""";

  /** Nothing is known but the currency. */
  public static LedgerMoney unknown(Currency currency) {
    return new LedgerMoney(currency, null, null, null, null, null, null);
  }

  /**
   * What is still to be claimed: due less seen on the bills, 0 or more. Claims are made bill by
   * bill, so what one month got too much never pays for another; sums over months and systems add
   * this, and net nothing. Null where nothing is known to be due.
   */
  public @Nullable BigDecimal creditUnclaimed() {
    return creditAmount == null
        ? null
        : creditAmount
            .subtract(creditClaimed == null ? BigDecimal.ZERO : creditClaimed)
            .max(BigDecimal.ZERO);
  }
}
