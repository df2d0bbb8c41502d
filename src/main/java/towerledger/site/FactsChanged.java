package towerledger.site;

import java.time.YearMonth;
import java.util.List;
import org.jspecify.annotations.Nullable;

/**
 * News that facts of some systems changed, so that the months they touch are reckoned anew.
 * Published inside the transaction that changes them.
 *
 * @param touched the systems and months
 * @param reason words for the ledger, for instance {@code register readings imported}
 */
public record FactsChanged(List<Touched> touched, String reason) {

  public FactsChanged {
    touched = List.copyOf(touched);
  }

  /** News about all months of one system. */
  public static FactsChanged always(long systemId, String reason) {
    return new FactsChanged(List.of(new Touched(systemId, null, null)), reason);
  }

  /** News about one system from a month on. */
  public static FactsChanged from(long systemId, YearMonth first, String reason) {
    return new FactsChanged(List.of(new Touched(systemId, first, null)), reason);
  }

  /**
   * Months of a system.
   *
   * @param systemId the system
   * @param first first month touched, in the site's calendar; null when there is no first
   * @param last last month touched, itself included; null when there is no last
   */
  public record Touched(long systemId, @Nullable YearMonth first, @Nullable YearMonth last) {}
}
