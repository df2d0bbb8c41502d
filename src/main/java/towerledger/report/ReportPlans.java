package towerledger.report;

import java.sql.ResultSet;
import java.sql.SQLException;
import java.time.Clock;
import java.time.Instant;
import java.time.OffsetDateTime;
import java.time.ZoneId;
import java.time.ZoneOffset;
import java.util.Collection;
import java.util.List;
import java.util.Map;
import java.util.Optional;
import java.util.stream.Collectors;
import org.springframework.jdbc.core.simple.JdbcClient;
import org.springframework.stereotype.Service;
import org.springframework.transaction.annotation.Transactional;
import towerledger.account.Actor;
import towerledger.account.ChangeHistory;
import towerledger.account.Customer;
import towerledger.account.CustomerDetails;
import towerledger.account.Customers;
import towerledger.account.EmailAddress;
import towerledger.account.UnitPreference;

/** Who gets the report, and when. The recipients are the customer's own and kept there. */
@Service
public class ReportPlans {

  private final JdbcClient jdbc;
  private final Customers customers;
  private final ChangeHistory history;
  private final Clock clock;

  ReportPlans(JdbcClient jdbc, Customers customers, ChangeHistory history, Clock clock) {
    this.jdbc = jdbc;
    this.customers = customers;
    this.history = history;
    this.clock = clock;
  }

  /** A customer's plan; what holds without one where there is none. */
  @Transactional(readOnly = true)
  public ReportPlan get(long customerId) {
    return jdbc.sql("SELECT * FROM report_plan WHERE customer_id = ?")
        .param(customerId)
        .query(ReportPlans::plan)
        .optional()
        .orElseGet(() -> ReportPlan.unset(customerId, zoneOf(customerId)));
  }

  /** Plans under which reports are written by themselves. */
  @Transactional(readOnly = true)
  public List<ReportPlan> listActive() {
    return jdbc.sql("SELECT * FROM report_plan WHERE active = TRUE ORDER BY customer_id")
        .query(ReportPlans::plan)
        .list();
  }

  /** How many there are of these. */
  @Transactional(readOnly = true)
  public long countActive() {
    return jdbc.sql("SELECT COUNT(*) FROM report_plan WHERE active = TRUE")
        .query(Long.class)
        .single();
  }

  /** Those of these that belong to some customers, by customer. */
  @Transactional(readOnly = true)
  public Map<Long, ReportPlan> listActive(Collection<Long> customerIds) {
    if (customerIds.isEmpty()) {
      return Map.of();
    }
    return jdbc
        .sql("SELECT * FROM report_plan WHERE active = TRUE AND customer_id IN (:customers)")
        .param("customers", customerIds)
        .query(ReportPlans::plan)
        .list()
        .stream()
        .collect(Collectors.toMap(ReportPlan::customerId, plan -> plan));
  }

  /** Zone of the customer's first site, UTC without any. */
  private ZoneId zoneOf(long customerId) {
    return jdbc.sql("SELECT time_zone FROM site_site WHERE customer_id = ? ORDER BY code LIMIT 1")
        .param(customerId)
        .query(String.class)
        .optional()
        .map(ZoneId::of)
        .orElse(ZoneOffset.UTC);
  }

  /**
   * Keeps a plan and the recipients; the change is kept in the history. A plan that becomes active
   * begins with the next month that falls due.
   */
  @Transactional
  public void put(ReportPlan plan, List<EmailAddress> recipients, Actor actor) {
    Customer customer = customers.get(plan.customerId());
    Optional<ReportPlan> before =
        jdbc.sql("SELECT * FROM report_plan WHERE customer_id = ?")
            .param(plan.customerId())
            .query(ReportPlans::plan)
            .optional();
    boolean begins = plan.active() && !before.map(ReportPlan::active).orElse(false);
    Instant since =
        begins ? clock.instant() : before.map(ReportPlan::activeSince).orElse(Instant.EPOCH);
    if (before.isPresent()) {
      jdbc.sql("DELETE FROM report_plan WHERE customer_id = ?").param(plan.customerId()).update();
    }
    jdbc.sql(
            """
            INSERT INTO report_plan (customer_id, active, day_of_month, hour_of_day, time_zone,
              language, units, only_notable, held, manager, reply_to, active_since)
            VALUES (?, ?, ?, ?, ?, ?, ?, ?, ?, ?, ?, ?)""")
        .params(
            java.util.Arrays.asList(
                plan.customerId(),
                plan.active(),
                plan.dayOfMonth(),
                plan.hourOfDay(),
                plan.zone().getId(),
                plan.language(),
                plan.units().name(),
                plan.onlyNotable(),
                plan.held(),
                plan.manager(),
                plan.replyTo(),
                OffsetDateTime.ofInstant(since, ZoneOffset.UTC)))
        .update();
    history.record(
        actor,
        before.isEmpty() ? "added" : "changed",
        "report plan",
        customer.code(),
        customer.id(),
        before.map(ReportPlans::asTold).orElse(null),
        asTold(plan));
    CustomerDetails details = customer.details();
    customers.put(
        new CustomerDetails(
            details.code(), details.name(), details.contactName(), recipients, details.currency()),
        actor);
  }

  private static java.util.Map<String, String> asTold(ReportPlan plan) {
    return java.util.Map.of(
        "active", String.valueOf(plan.active()),
        "due", "day %d, %d:00 %s".formatted(plan.dayOfMonth(), plan.hourOfDay(), plan.zone()),
        "language", plan.language(),
        "units", plan.units().name(),
        "only notable", String.valueOf(plan.onlyNotable()),
        "held", String.valueOf(plan.held()),
        "manager", String.valueOf(plan.manager()),
        "reply to", String.valueOf(plan.replyTo()));
  }

  private static ReportPlan plan(ResultSet row, int number) throws SQLException {
    return new ReportPlan(
        row.getLong("customer_id"),
        row.getBoolean("active"),
        row.getInt("day_of_month"),
        row.getInt("hour_of_day"),
        ZoneId.of(row.getString("time_zone")),
        row.getString("language"),
        UnitPreference.valueOf(row.getString("units")),
        row.getBoolean("only_notable"),
        row.getBoolean("held"),
        row.getString("manager"),
        row.getString("reply_to"),
        row.getObject("active_since", OffsetDateTime.class).toInstant());
  }
}
