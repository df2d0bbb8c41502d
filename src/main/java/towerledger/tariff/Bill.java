package towerledger.tariff;

import java.math.BigDecimal;
import java.math.RoundingMode;
import java.util.Currency;
import java.util.List;
import towerledger.quantity.Money;

/**
 * A bill: its lines, exact, and their total, rounded once.
 *
 * @param lines lines in the order they are worked out
 * @param total sum of the lines, rounded half-up to the currency's minor unit
 * @param notes what the reader has to know besides: a credit not given, a period that is not a
 *     regular bill
 */
public record Bill(List<BillLine> lines, Money total, List<String> notes) {

  /**
   * Decimals a sum is settled to before it is rounded to cents. Splitting a period by days divides
   * by 31 and the like; what that leaves in the fifteenth decimal may not decide a half cent.
   */
  private static final int SETTLED_DECIMALS = 8;

  public Bill {
    lines = List.copyOf(lines);
    notes = List.copyOf(notes);
  }

  /** A bill of lines in one currency. */
  public static Bill of(List<BillLine> lines, Currency currency, List<String> notes) {
    BigDecimal sum = BigDecimal.ZERO;
    for (BillLine line : lines) {
      sum = sum.add(line.amount().amount());
    }
    return new Bill(lines, settle(sum, currency).rounded(), notes);
  }

  /** Exact sum of the lines, before the bill rounds. */
  public Money exact() {
    return sum(lines);
  }

  /** Exact sum of one service's lines. */
  public Money exact(Service service) {
    return sum(lines.stream().filter(line -> line.service() == service).toList());
  }

  static Money settle(BigDecimal sum, Currency currency) {
    return Money.of(sum.setScale(SETTLED_DECIMALS, RoundingMode.HALF_EVEN), currency);
  }

  private Money sum(List<BillLine> some) {
    BigDecimal sum = BigDecimal.ZERO;
    for (BillLine line : some) {
      sum = sum.add(line.amount().amount());
    }
    return settle(sum, total.currency());
  }
}
