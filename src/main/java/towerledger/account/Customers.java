package towerledger.account;

import java.time.Clock;
import java.util.Collection;
import java.util.List;
import java.util.Map;
import java.util.Optional;
import java.util.stream.Collectors;
import org.springframework.stereotype.Component;
import org.springframework.transaction.annotation.Transactional;

/** The customers the contractor works for. */
@Component
public class Customers {

  private final CustomerRows rows;
  private final ChangeHistory history;
  private final Clock clock;

  Customers(CustomerRows rows, ChangeHistory history, Clock clock) {
    this.rows = rows;
    this.history = history;
    this.clock = clock;
  }

  /**
   * The customer with a key.
   *
   * @throws AccountException if there is none
   */
  @Transactional(readOnly = true)
  public Customer get(long id) {
    return rows.findById(id)
        .orElseThrow(() -> new AccountException("there is no customer with key " + id));
  }

  @Transactional(readOnly = true)
  public Optional<Customer> find(String code) {
    return rows.findByCode(code);
  }

  /**
   * Customers by name.
   *
   * @param search part of name or code in any case; empty for all
   * @param offset how many to pass over
   * @param limit at most so many
   */
  @Transactional(readOnly = true)
  public List<Customer> list(String search, int offset, int limit) {
    return rows.search("%" + Likeness.escaped(search.strip()) + "%", offset, limit);
  }

  /** The customers with some keys, by key; a key without customer is left out. */
  @Transactional(readOnly = true)
  public Map<Long, Customer> list(Collection<Long> ids) {
    return rows.findAllById(ids).stream().collect(Collectors.toMap(Customer::id, c -> c));
  }

  /** Adds the customer, or changes the one with that code; the change is kept in its history. */
  @Transactional
  public Outcome put(CustomerDetails details, Actor actor) {
    Optional<Customer> present = rows.findByCode(details.code());
    if (present.isEmpty()) {
      Customer added = rows.save(new Customer(details, clock.instant()));
      history.record(actor, "added", "customer", details.code(), added.id(), null, details);
      return Outcome.ADDED;
    }
    Customer customer = present.get();
    CustomerDetails before = customer.details();
    if (before.equals(details)) {
      return Outcome.UNCHANGED;
    }
    customer.change(details);
    history.record(actor, "changed", "customer", details.code(), customer.id(), before, details);
    return Outcome.CHANGED;
  }
}
