package towerledger.report.content;

import java.math.BigDecimal;
import java.util.Currency;
import java.util.List;
import org.jspecify.annotations.Nullable;
import towerledger.balance.Cause;
import towerledger.drawing.FigureText;
import towerledger.ledger.Doubt;
import towerledger.ledger.LedgerEntry;
import towerledger.ledger.LedgerWater;
import towerledger.quantity.Money;
import towerledger.quantity.Volume;
import towerledger.wording.SumText;

/**
 * A customer's month in sums. What is not known is counted, never taken for zero. Systems are taken
 * as independent, so what lies below and above them adds as squares (JCGM 100:2008, 5.1.2).
 */
final class Totals {

  private final Currency currency;
  private int metered;
  private int wasting;
  private int priced;
  private int untold;
  private int creditKnown;
  private double makeup;
  private double sound;
  private double soundSquares;
  private double loss;
  private Doubt lossDoubt = Doubt.NONE;
  private BigDecimal cost = BigDecimal.ZERO;
  private Doubt costDoubt = Doubt.NONE;
  private BigDecimal credit = BigDecimal.ZERO;
  private BigDecimal claimed = BigDecimal.ZERO;
  private BigDecimal unclaimed = BigDecimal.ZERO;

  Totals(List<LedgerEntry> rows, Currency currency) {
    this.currency = currency;
    rows.forEach(this::add);
  }

  private void add(LedgerEntry row) {
    LedgerWater water = row.water();
    if (row.verdict().likeliest() == Cause.MISSING_DATA || water.makeup() == null) {
      untold++;
    }
    if (water.makeup() != null && water.unaccounted() != null) {
      metered++;
      makeup += water.makeup();
      sound += water.makeup() - water.unaccounted();
      soundSquares += square(halfWidth(water.unaccountedLow(), water.unaccountedHigh()));
    }
    if (row.verdict().waste()) {
      wasting++;
      if (water.loss() != null) {
        loss += water.loss();
        if (water.lossLow() != null && water.lossHigh() != null) {
          lossDoubt = lossDoubt.beside(Doubt.of(water.loss(), water.lossLow(), water.lossHigh()));
        }
      }
      addCost(row);
    }
    BigDecimal due = row.money().creditAmount();
    BigDecimal left = row.creditUnclaimed();
    if (due != null && left != null && row.money().currency().equals(currency)) {
      creditKnown++;
      BigDecimal seen = row.money().creditClaimed();
      credit = credit.add(due);
      claimed = claimed.add(seen == null ? BigDecimal.ZERO : seen);
      unclaimed = unclaimed.add(left);
    }
  }

  private void addCost(LedgerEntry row) {
    BigDecimal amount = row.money().lossAmount();
    if (amount == null || !row.money().currency().equals(currency)) {
      return;
    }
    priced++;
    cost = cost.add(amount);
    BigDecimal low = row.money().lossLow();
    BigDecimal high = row.money().lossHigh();
    if (low != null && high != null) {
      costDoubt =
          costDoubt.beside(Doubt.of(amount.doubleValue(), low.doubleValue(), high.doubleValue()));
    }
  }

  private static double halfWidth(@Nullable Double low, @Nullable Double high) {
    return low == null || high == null ? 0 : (high - low) / 2;
  }

  private static double square(double value) {
    return value * value;
  }

  /** Systems with a makeup figure. */
  int metered() {
    return metered;
  }

  int wasting() {
    return wasting;
  }

  /** Systems of which nothing can be told. */
  int untold() {
    return untold;
  }

  /** Wasting systems whose waste has a price. */
  int priced() {
    return priced;
  }

  boolean isCreditKnown() {
    return creditKnown > 0;
  }

  String makeup(FigureText text) {
    return text.volume(Volume.ofLitres(makeup));
  }

  String explained(FigureText text) {
    return SumText.water(sound, new Doubt(soundHalfWidthLitres(), soundHalfWidthLitres()), text);
  }

  String wasted(FigureText text) {
    return SumText.water(loss, lossDoubt, text);
  }

  /** The waste without its interval but rounded to it, for a subject line. */
  String wastedAbout(FigureText text) {
    return text.about(Volume.ofLitres(loss), Volume.ofLitres(wider(lossDoubt)));
  }

  String cost(FigureText text) {
    return SumText.cost(money(cost), costDoubt, text);
  }

  /** The cost without its interval but rounded to it, for a subject line. */
  String costAbout(FigureText text) {
    return text.about(money(cost), wider(costDoubt));
  }

  String credit(FigureText text) {
    return text.money(money(credit));
  }

  String claimed(FigureText text) {
    return text.money(money(claimed));
  }

  String unclaimed(FigureText text) {
    return text.money(money(unclaimed));
  }

  boolean isCreditUnclaimed() {
    return unclaimed.signum() > 0;
  }

  /** Cost of the waste; null where some of it has no price. */
  @Nullable Double costAmount() {
    return priced < wasting ? null : cost.doubleValue();
  }

  Doubt costDoubt() {
    return costDoubt;
  }

  double makeupLitres() {
    return makeup;
  }

  double soundLitres() {
    return sound;
  }

  double soundHalfWidthLitres() {
    return Math.sqrt(soundSquares);
  }

  private Money money(BigDecimal amount) {
    return new Money(amount, currency);
  }

  /** The wider side, which decides how many digits are shown. */
  private static double wider(Doubt doubt) {
    return Math.max(doubt.below(), doubt.above());
  }
}
