package towerledger.ledger;

import com.github.benmanes.caffeine.cache.Cache;
import com.github.benmanes.caffeine.cache.Caffeine;
import java.time.YearMonth;
import java.util.Collection;
import java.util.List;
import java.util.Map;
import java.util.function.Supplier;
import org.jspecify.annotations.Nullable;
import org.springframework.stereotype.Service;
import org.springframework.transaction.annotation.Transactional;
import towerledger.account.Viewer;
import towerledger.query.Question;

/**
 * What the month review adds up over all systems, remembered until the ledger changes: everybody in
 * the office opens the same month, and several thousand rows make its money.
 *
 * <p>Every change of what is added up counts in {@code ledger_turn}, in the transaction that makes
 * it ({@link SlotSums}). The count is read first and the figures after it, so figures are never
 * older than the count they are remembered under, on any node. Only figures of the ledger are
 * remembered: names, and what a reader may see, are read each time.
 */
@Service
@Transactional(readOnly = true)
public class RememberedReview {

  /** A month with its money is some 20 kB, the lines of a page of the list some 60 kB. */
  private static final int ENTRIES = 200;

  private final MonthReview review;
  private final Cache<Object, Figures> known = Caffeine.newBuilder().maximumSize(ENTRIES).build();

  RememberedReview(MonthReview review) {
    this.review = review;
  }

  private record Figures(long changes, Object value) {}

  private record Month(YearMonth first, YearMonth month, int customers) {}

  private record Lines(List<Long> systems, YearMonth first, YearMonth last) {}

  private record Money(
      List<MonthReview.Sum> sums,
      List<MonthReview.MonthLoss> months,
      List<RankedLosses> customers) {}

  /**
   * A month added up.
   *
   * @param changes how often the ledger had changed when the figures were read, at least
   * @param sums see {@link MonthReview#sums}
   * @param months see {@link MonthReview#lossByMonth}
   * @param customers see {@link MonthReview#rankedLosses}
   */
  public record Portfolio(
      long changes,
      List<MonthReview.Sum> sums,
      List<MonthReview.MonthLoss> months,
      List<RankedLosses> customers) {}

  /**
   * A month added up, with the months before it.
   *
   * @param changes the answer to {@link #changes}, asked before
   * @param first first month of the money lost by month
   * @param customers how many customers to name in each currency
   */
  public Portfolio portfolio(
      Viewer viewer,
      long changes,
      YearMonth first,
      YearMonth month,
      ReviewFilter filter,
      int customers) {
    Supplier<Money> read =
        () ->
            new Money(
                review.sums(viewer, month, filter),
                review.lossByMonth(viewer, first, month, filter),
                review.rankedLosses(viewer, month, filter, customers));
    Money money =
        MonthReview.coversAll(viewer, filter)
            ? remembered(changes, new Month(first, month, customers), Money.class, read)
            : read.get();
    return new Portfolio(changes, money.sums(), money.months(), money.customers());
  }

  /** How often the ledger has changed: to be asked before the figures that go with it. */
  public static Question<Long> changes() {
    return Question.rows(
            "SELECT SUM(t.changes) FROM ledger_turn t", List.of(), (row, number) -> row.getLong(1))
        .then(sum -> sum.get(0));
  }

  /**
   * See {@link MonthReview#lines}.
   *
   * @param changes that of the portfolio these are part of: the lines are not older
   */
  public Map<Long, List<TrendMonth>> lines(
      long changes, Collection<Long> systemIds, YearMonth first, YearMonth last) {
    Lines lines = new Lines(List.copyOf(systemIds), first, last);
    return remembered(
            changes, lines, Found.class, () -> new Found(review.lines(systemIds, first, last)))
        .lines();
  }

  private record Found(Map<Long, List<TrendMonth>> lines) {}

  private <T> T remembered(long changes, Object key, Class<T> type, Supplier<T> read) {
    @Nullable Figures before = known.getIfPresent(key);
    if (before != null && before.changes() == changes) {
      return type.cast(before.value());
    }
    T value = read.get();
    known.put(key, new Figures(changes, value));
    return value;
  }
}
