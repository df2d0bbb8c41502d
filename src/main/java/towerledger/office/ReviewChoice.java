package towerledger.office;

import java.time.YearMonth;
import java.util.Arrays;
import java.util.Locale;
import java.util.Optional;
import org.jspecify.annotations.Nullable;
import org.springframework.web.util.UriComponentsBuilder;
import towerledger.balance.EvidenceGrade;
import towerledger.ledger.ReviewFilter;
import towerledger.page.MonthParameter;

/**
 * What the reader chose on the month review, as it stands in the address. Values that mean nothing
 * count as not chosen: an old address still opens the page.
 *
 * @param month year and month
 * @param customer code of a customer
 * @param verdict name of a verdict
 * @param evidence grade
 * @param search text to find
 * @param order name of an order
 * @param page page of the list, from 1
 */
record ReviewChoice(
    @Nullable String month,
    @Nullable String customer,
    @Nullable String verdict,
    @Nullable String evidence,
    @Nullable String search,
    @Nullable String order,
    @Nullable Integer page) {

  Optional<YearMonth> chosenMonth() {
    return month == null ? Optional.empty() : MonthParameter.find(month);
  }

  int pageNumber() {
    return page == null ? 1 : Math.max(1, Math.min(page, 100_000));
  }

  ReviewFilter filter() {
    return new ReviewFilter(
        customer == null || customer.isBlank() ? null : customer,
        find(ReviewFilter.Verdict.values(), verdict),
        find(EvidenceGrade.values(), evidence),
        search == null ? "" : search,
        orderOrDefault());
  }

  /** Whether the list shows less than the whole month, or in another order than by cost. */
  boolean isNarrowed() {
    return !filter().isOpen() || orderOrDefault() != ReviewFilter.Order.COST;
  }

  ReviewFilter.Order orderOrDefault() {
    ReviewFilter.Order chosen = find(ReviewFilter.Order.values(), order);
    return chosen == null ? ReviewFilter.Order.COST : chosen;
  }

  /** Address of the same choice in another month. */
  String inMonth(YearMonth other) {
    return address(other.toString(), order, 1);
  }

  /** Address of the same choice in another order. */
  public String orderedBy(String other) {
    return address(month, other, 1);
  }

  /** Address of another page of the same list. */
  String turnedTo(int other) {
    return address(month, order, other);
  }

  private String address(@Nullable String toMonth, @Nullable String toOrder, int toPage) {
    UriComponentsBuilder address = UriComponentsBuilder.fromPath("/");
    add(address, "month", toMonth);
    add(address, "customer", customer);
    add(address, "verdict", verdict);
    add(address, "evidence", evidence);
    add(address, "search", search);
    add(address, "order", toOrder);
    if (toPage > 1) {
      address.queryParam("page", toPage);
    }
    return address.encode().toUriString();
  }

  private static void add(UriComponentsBuilder address, String name, @Nullable String value) {
    if (value != null && !value.isBlank()) {
      address.queryParam(name, value);
    }
  }

  private static <E extends Enum<E>> @Nullable E find(E[] values, @Nullable String name) {
    return name == null
        ? null
        : Arrays.stream(values)
            .filter(value -> value.name().equals(name.toUpperCase(Locale.ROOT)))
            .findFirst()
            .orElse(null);
  }
}
