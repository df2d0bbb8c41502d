package towerledger.tariff;

import java.math.BigDecimal;
import java.math.RoundingMode;
import org.jspecify.annotations.Nullable;
import towerledger.quantity.Money;

/**
 * One line of a bill with its working. The amount is exact; only the bill's total is rounded.
 *
 * @param service service billed
 * @param kind what the line is
 * @param name name on the bill
 * @param quantity what is multiplied: units in a block, regular bills in the period, or the amount
 *     a percentage is taken of; absent for a sum that is just stated
 * @param unit unit of the quantity; empty where it has none
 * @param rate price of one unit, amount per bill, or percentage as a share; absent as above
 * @param amount exact amount
 * @param rule part of the period or rule the line follows; empty when there is nothing to say
 */
public record BillLine(
    Service service,
    Kind kind,
    String name,
    @Nullable BigDecimal quantity,
    String unit,
    @Nullable BigDecimal rate,
    Money amount,
    String rule) {

  private static final int SHOWN_DECIMALS = 6;

  /** The arithmetic of the line, for instance {@code 36 ccf × 6.54}. */
  public String working() {
    String sum;
    if (quantity == null || rate == null) {
      sum = money(amount.amount());
    } else {
      sum =
          switch (kind) {
            case CHARGE ->
                quantity.compareTo(BigDecimal.ONE) == 0
                    ? money(rate)
                    : plain(quantity) + " bills × " + money(rate);
            case BLOCK, PART -> plain(quantity) + " " + unit + " × " + money(rate);
            case MINIMUM -> money(rate) + " − " + money(quantity);
            case SURCHARGE, TAX -> plain(rate.movePointRight(2)) + " % of " + money(quantity);
          };
    }
    return rule.isEmpty() ? sum : sum + " (" + rule + ")";
  }

  private static String plain(BigDecimal value) {
    BigDecimal shown =
        value.setScale(Math.min(Math.max(value.scale(), 0), SHOWN_DECIMALS), RoundingMode.HALF_UP);
    String text = shown.signum() == 0 ? "0" : shown.stripTrailingZeros().toPlainString();
    return value.compareTo(shown) == 0 ? text : text + "…";
  }

  private static String money(BigDecimal value) {
    return value.scale() >= 2 || value.scale() < 0
        ? plainAtLeastCents(value)
        : value.setScale(2, RoundingMode.UNNECESSARY).toPlainString();
  }

  private static String plainAtLeastCents(BigDecimal value) {
    BigDecimal shown =
        value.setScale(Math.min(Math.max(value.scale(), 2), SHOWN_DECIMALS), RoundingMode.HALF_UP);
    BigDecimal stripped = shown.stripTrailingZeros();
    String text =
        stripped.scale() < 2
            ? shown.setScale(2, RoundingMode.HALF_UP).toPlainString()
            : stripped.toPlainString();
    return value.compareTo(shown) == 0 ? text : text + "…";
  }

  /** What a line is. */
  public enum Kind {
    /** A fixed amount per bill. */
    CHARGE,
    /** Units in a block times the block's rate. */
    BLOCK,
    /** A part worked out by a formula of its own. */
    PART,
    /** What lifts the charges to the minimum charge. */
    MINIMUM,
    /** A percentage of the charges. */
    SURCHARGE,
    /** A percentage of charges and surcharge. */
    TAX
  }
}
