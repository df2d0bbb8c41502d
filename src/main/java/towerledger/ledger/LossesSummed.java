package towerledger.ledger;

import java.math.BigDecimal;
import java.util.ArrayList;
import java.util.Comparator;
import java.util.HashMap;
import java.util.List;
import java.util.Map;
import java.util.TreeMap;
import org.jspecify.annotations.Nullable;

/** Adds up what wasting systems cost, by currency and customer. */
final class LossesSummed {

  private static final class Sum {
    private final long customer;
    private BigDecimal amount = BigDecimal.ZERO;
    private Doubt doubt = Doubt.NONE;

    private Sum(long customer) {
      this.customer = customer;
    }
  }

  private static final Comparator<Sum> DEAREST =
      Comparator.<Sum, BigDecimal>comparing(sum -> sum.amount)
          .reversed()
          .thenComparingLong(sum -> sum.customer);

  private final Map<String, Map<Long, Sum>> byCurrency = new TreeMap<>();

  /** Adds a system's loss with its 95 % interval; what is not known adds nothing. */
  void add(
      long customer,
      String currency,
      @Nullable BigDecimal amount,
      @Nullable BigDecimal low,
      @Nullable BigDecimal high) {
    if (amount == null) {
      return;
    }
    Sum sum =
        byCurrency
            .computeIfAbsent(currency, c -> new HashMap<>())
            .computeIfAbsent(customer, Sum::new);
    sum.amount = sum.amount.add(amount);
    if (low != null && high != null) {
      sum.doubt =
          sum.doubt.beside(Doubt.of(amount.doubleValue(), low.doubleValue(), high.doubleValue()));
    }
  }

  /**
   * The sums, the currency with the dearest customer first.
   *
   * @param limit how many to tell one by one in each currency
   */
  List<RankedLosses> ranked(int limit) {
    List<RankedLosses> all = new ArrayList<>();
    byCurrency.forEach(
        (currency, sums) -> {
          List<Sum> losing =
              sums.values().stream()
                  .filter(sum -> sum.amount.signum() > 0)
                  .sorted(DEAREST)
                  .toList();
          if (!losing.isEmpty()) {
            all.add(
                new RankedLosses(
                    currency,
                    losing.stream()
                        .limit(limit)
                        .map(sum -> new RankedLosses.Lost(sum.customer, sum.amount, sum.doubt))
                        .toList(),
                    losing.size(),
                    losing.stream()
                        .map(sum -> sum.amount)
                        .reduce(BigDecimal.ZERO, BigDecimal::add)));
          }
        });
    all.sort(
        Comparator.comparing((RankedLosses losses) -> losses.dearest().get(0).amount()).reversed());
    return all;
  }
}
