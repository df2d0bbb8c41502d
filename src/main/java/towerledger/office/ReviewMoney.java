package towerledger.office;

import java.math.BigDecimal;
import java.time.YearMonth;
import java.util.ArrayList;
import java.util.Currency;
import java.util.List;
import java.util.Optional;
import java.util.function.ToDoubleFunction;
import java.util.stream.Stream;
import towerledger.drawing.Chart;
import towerledger.drawing.FigureText;
import towerledger.drawing.Layer;
import towerledger.drawing.Medium;
import towerledger.drawing.RankedBars;
import towerledger.drawing.Series;
import towerledger.drawing.Tone;
import towerledger.drawing.WaterPart;
import towerledger.ledger.CustomerLosses;
import towerledger.ledger.Doubt;
import towerledger.ledger.MonthReview;
import towerledger.page.FigureTable;
import towerledger.page.Plate;
import towerledger.page.PlateLegends;
import towerledger.quantity.Money;
import towerledger.wording.SumText;
import towerledger.wording.Words;

/**
 * The money above the month review: what was lost by month, running, and by customer, one set a
 * currency.
 */
record ReviewMoney(Words words, FigureText text) {

  private static final int CUSTOMERS = 8;
  static final int CUSTOMERS_IN_TABLE = 50;
  private static final int MONTHS = 13;

  List<Plate> plates(
      YearMonth last, List<MonthReview.MonthLoss> months, List<CustomerLosses> losers) {
    List<Plate> plates = new ArrayList<>();
    Stream.concat(
            months.stream().map(MonthReview.MonthLoss::currency),
            losers.stream().map(CustomerLosses::currency))
        .distinct()
        .forEach(currency -> add(plates, currency, last, months, losers));
    return plates;
  }

  private void add(
      List<Plate> plates,
      Currency currency,
      YearMonth last,
      List<MonthReview.MonthLoss> months,
      List<CustomerLosses> losers) {
    List<Optional<MonthReview.MonthLoss>> byMonth = new ArrayList<>();
    List<YearMonth> axis = new ArrayList<>();
    for (int back = MONTHS - 1; back >= 0; back--) {
      YearMonth month = last.minusMonths(back);
      axis.add(month);
      byMonth.add(
          months.stream()
              .filter(m -> m.month().equals(month) && m.currency().equals(currency))
              .findFirst());
    }
    if (byMonth.stream().flatMap(Optional::stream).noneMatch(m -> m.amount().signum() > 0)) {
      return;
    }
    plates.add(byMonth(currency, axis, byMonth));
    plates.add(running(currency, axis, byMonth));
    losers.stream()
        .filter(losses -> losses.currency().equals(currency))
        .forEach(losses -> plates.add(byCustomer(last, losses)));
  }

  private Plate byMonth(
      Currency currency, List<YearMonth> axis, List<Optional<MonthReview.MonthLoss>> months) {
    double[] low = new double[axis.size()];
    double[] high = new double[axis.size()];
    double[] amount = new double[axis.size()];
    for (int slot = 0; slot < axis.size(); slot++) {
      Optional<MonthReview.MonthLoss> loss = months.get(slot);
      amount[slot] = loss.map(l -> l.amount().doubleValue()).orElse(Double.NaN);
      Doubt doubt = loss.map(MonthReview.MonthLoss::doubt).orElse(Doubt.NONE);
      boolean known = doubt.below() + doubt.above() > 0;
      low[slot] = known ? Math.max(0, amount[slot] - doubt.below()) : Double.NaN;
      high[slot] = known ? amount[slot] + doubt.above() : Double.NaN;
    }
    String title = words.of("review.money.months");
    MonthReview.MonthLoss worst =
        months.stream()
            .flatMap(Optional::stream)
            .max((a, b) -> a.amount().compareTo(b.amount()))
            .orElse(null);
    String summary =
        worst == null
            ? words.of("review.money.none")
            : words.of(
                "review.money.months.sum",
                text.month(worst.month()),
                estimate(worst.amount(), worst.doubt(), currency));
    return new Plate(
        "loss-by-month-" + currency,
        title,
        currency.getCurrencyCode(),
        Chart.over(labels(axis))
            .ticks(text::tick)
            .with(new Layer.Bars(Series.of(amount), WaterPart.EXCESS_LOSS))
            .with(
                new Layer.Whiskers(
                    Series.of(low), Series.constant(Double.NaN, axis.size()), Series.of(high)))
            .hints(hints(currency, axis, months))
            .draw(Medium.PAGE, title, summary),
        PlateLegends.loss(words),
        summary,
        table(currency, axis, months),
        null);
  }

  /** What was lost up to a month; doubts add up, since lasting errors do. */
  private record Running(BigDecimal amount, Doubt doubt) {}

  /** Running sums by month; empty where nothing is known of the month itself. */
  private static List<Optional<Running>> addUp(List<Optional<MonthReview.MonthLoss>> months) {
    List<Optional<Running>> sums = new ArrayList<>();
    BigDecimal amount = BigDecimal.ZERO;
    Doubt doubt = Doubt.NONE;
    for (Optional<MonthReview.MonthLoss> month : months) {
      if (month.isPresent()) {
        amount = amount.add(month.get().amount());
        doubt = doubt.together(month.get().doubt());
      }
      Running sum = new Running(amount, doubt);
      sums.add(month.map(loss -> sum));
    }
    return sums;
  }

  private static Series series(List<Optional<Running>> sums, ToDoubleFunction<Running> figure) {
    return Series.of(
        sums.stream()
            .mapToDouble(sum -> sum.map(figure::applyAsDouble).orElse(Double.NaN))
            .toArray());
  }

  private Plate running(
      Currency currency, List<YearMonth> axis, List<Optional<MonthReview.MonthLoss>> months) {
    List<Optional<Running>> sums = addUp(months);
    Running last = sums.stream().flatMap(Optional::stream).reduce((a, b) -> b).orElseThrow();
    String title = words.of("review.money.running");
    String summary =
        words.of(
            "review.money.running.sum",
            text.month(axis.get(0)),
            estimate(last.amount(), last.doubt(), currency));
    FigureTable table = runningTable(currency, axis, sums);
    return new Plate(
        "loss-running-" + currency,
        title,
        currency.getCurrencyCode(),
        Chart.over(labels(axis))
            .ticks(text::tick)
            .with(
                new Layer.Band(
                    series(
                        sums, sum -> Math.max(0, sum.amount().doubleValue() - sum.doubt().below())),
                    series(sums, sum -> sum.amount().doubleValue() + sum.doubt().above()),
                    Tone.SET_ASIDE))
            .with(new Layer.Line(series(sums, sum -> sum.amount().doubleValue()), Tone.LOSS, true))
            .hints(table.rows().stream().map(row -> String.join(": ", row)).toList())
            .draw(Medium.PAGE, title, summary),
        PlateLegends.runningLoss(words),
        summary,
        table,
        null);
  }

  private Plate byCustomer(YearMonth month, CustomerLosses losses) {
    Currency currency = losses.currency();
    List<CustomerLosses.Loss> dearest = losses.dearest();
    List<RankedBars.Bar> bars = new ArrayList<>();
    for (CustomerLosses.Loss loss : dearest.subList(0, Math.min(CUSTOMERS, dearest.size()))) {
      double amount = loss.amount().doubleValue();
      bars.add(
          new RankedBars.Bar(
              loss.name(),
              amount,
              amount - loss.doubt().below(),
              amount + loss.doubt().above(),
              estimate(loss.amount(), loss.doubt(), currency)));
    }
    if (losses.customers() > CUSTOMERS) {
      BigDecimal rest = losses.amountBeyond(CUSTOMERS);
      double amount = rest.doubleValue();
      bars.add(
          new RankedBars.Bar(
              words.of("review.money.others", losses.customers() - CUSTOMERS),
              amount,
              amount,
              amount,
              text.money(new Money(rest, currency))));
    }
    String title = words.of("review.money.customers", text.month(month));
    CustomerLosses.Loss first = dearest.get(0);
    String summary =
        words.of(
            "review.money.customers.sum",
            first.name(),
            estimate(first.amount(), first.doubt(), currency));
    return new Plate(
        "loss-by-customer-" + currency,
        title,
        currency.getCurrencyCode(),
        RankedBars.draw(Medium.PAGE, bars, WaterPart.EXCESS_LOSS, title, summary),
        PlateLegends.loss(words),
        summary,
        new FigureTable(
            List.of(words.of("review.customer"), money(currency)), customers(losses, currency)),
        null);
  }

  private List<List<String>> customers(CustomerLosses losses, Currency currency) {
    List<List<String>> rows = new ArrayList<>();
    losses.dearest().stream()
        .limit(CUSTOMERS_IN_TABLE)
        .forEach(l -> rows.add(List.of(l.name(), estimate(l.amount(), l.doubt(), currency))));
    int named = rows.size();
    if (losses.customers() > named) {
      rows.add(
          List.of(
              words.of("review.money.others", losses.customers() - named),
              text.money(new Money(losses.amountBeyond(named), currency))));
    }
    return rows;
  }

  private String estimate(BigDecimal amount, Doubt doubt, Currency currency) {
    return SumText.cost(new Money(amount, currency), doubt, text);
  }

  private List<String> labels(List<YearMonth> axis) {
    return axis.stream()
        .map(
            m ->
                m.getMonthValue() == 1 ? "’%02d".formatted(m.getYear() % 100) : text.monthLetter(m))
        .toList();
  }

  private List<String> hints(
      Currency currency, List<YearMonth> axis, List<Optional<MonthReview.MonthLoss>> months) {
    List<String> hints = new ArrayList<>();
    for (int slot = 0; slot < axis.size(); slot++) {
      hints.add(text.month(axis.get(slot)) + ": " + figure(currency, months.get(slot)));
    }
    return hints;
  }

  private String figure(Currency currency, Optional<MonthReview.MonthLoss> loss) {
    return loss.map(l -> estimate(l.amount(), l.doubt(), currency))
        .orElse(words.of("figure.unknown"));
  }

  private FigureTable table(
      Currency currency, List<YearMonth> axis, List<Optional<MonthReview.MonthLoss>> months) {
    List<List<String>> rows = new ArrayList<>();
    for (int slot = 0; slot < axis.size(); slot++) {
      rows.add(List.of(text.month(axis.get(slot)), figure(currency, months.get(slot))));
    }
    return new FigureTable(List.of(words.of("figure.month"), money(currency)), rows);
  }

  private FigureTable runningTable(
      Currency currency, List<YearMonth> axis, List<Optional<Running>> sums) {
    List<List<String>> rows = new ArrayList<>();
    for (int slot = 0; slot < axis.size(); slot++) {
      rows.add(
          List.of(
              text.month(axis.get(slot)),
              sums.get(slot)
                  .map(sum -> estimate(sum.amount(), sum.doubt(), currency))
                  .orElseGet(() -> words.of("figure.unknown"))));
    }
    return new FigureTable(List.of(words.of("figure.month"), money(currency)), rows);
  }

  private String money(Currency currency) {
    return words.of("review.money.heading", currency.getCurrencyCode());
  }
}
