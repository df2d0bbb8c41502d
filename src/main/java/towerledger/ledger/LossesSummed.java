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
    private double squares;

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
      double half = high.subtract(low).doubleValue() / 2;
      sum.squares += half * half;
    }
  }

  /**
   * What customers lost in one currency, without their names.
   *
   * @param dearest those who lost most, dearest first
   * @param customers how many lost anything
   * @param amount what all of them lost
   */
  record Ranked(String currency, List<Lost> dearest, int customers, BigDecimal amount) {}

  /** What one customer lost. */
  record Lost(long customer, BigDecimal amount, double halfWidth) {}

  /**
   * The sums, the currency with the dearest customer first.
   *
   * @param limit how many to tell one by one in each currency
   */
  List<Ranked> ranked(int limit) {
    List<Ranked> all = new ArrayList<>();
    byCurrency.forEach(
        (currency, sums) -> {
          List<Sum> losing =
              sums.values().stream()
                  .filter(sum -> sum.amount.signum() > 0)
                  .sorted(DEAREST)
                  .toList();
          if (!losing.isEmpty()) {
            all.add(
                new Ranked(
                    currency,
                    losing.stream()
                        .limit(limit)
                        .map(sum -> new Lost(sum.customer, sum.amount, Math.sqrt(sum.squares)))
                        .toList(),
                    losing.size(),
                    losing.stream()
                        .map(sum -> sum.amount)
                        .reduce(BigDecimal.ZERO, BigDecimal::add)));
          }
        });
    all.sort(Comparator.comparing((Ranked losses) -> losses.dearest().get(0).amount()).reversed());
    return all;
  }
}
