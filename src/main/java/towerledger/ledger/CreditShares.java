package towerledger.ledger;

import java.math.BigDecimal;
import java.math.RoundingMode;
import java.util.Collection;
import java.util.LinkedHashMap;
import java.util.Map;

/** How the credit that a bill gave is shared among the systems of its site. */
final class CreditShares {

  private CreditShares() {}

  /**
   * Shares in proportion to what each system deserves, so that a bill that gave in full leaves
   * nothing unclaimed; in equal parts where nothing is due. They sum to the amount to the cent.
   *
   * @param given what the bills gave
   * @param systems codes of the systems
   * @param due what each deserves, where that is known; below 0 counts as 0
   */
  static Map<String, BigDecimal> of(
      BigDecimal given, Collection<String> systems, Map<String, BigDecimal> due) {
    Map<String, BigDecimal> weights = new LinkedHashMap<>();
    BigDecimal open = BigDecimal.ZERO;
    for (String system : systems) {
      BigDecimal weight = due.getOrDefault(system, BigDecimal.ZERO).max(BigDecimal.ZERO);
      weights.put(system, weight);
      open = open.add(weight);
    }
    if (open.signum() == 0) {
      weights.replaceAll((system, none) -> BigDecimal.ONE);
      open = BigDecimal.valueOf(systems.size());
    }
    BigDecimal left = given.setScale(2, RoundingMode.HALF_UP);
    Map<String, BigDecimal> shares = new LinkedHashMap<>();
    for (var entry : weights.entrySet()) {
      // of what is left, so that the last one takes the cents
      BigDecimal share =
          open.signum() == 0
              ? BigDecimal.ZERO.setScale(2)
              : left.multiply(entry.getValue()).divide(open, 2, RoundingMode.HALF_UP);
      shares.put(entry.getKey(), share);
      left = left.subtract(share);
      open = open.subtract(entry.getValue());
    }
    return shares;
  }
}
