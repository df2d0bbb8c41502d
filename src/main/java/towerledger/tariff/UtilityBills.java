package towerledger.tariff;

import java.math.BigDecimal;
import java.sql.ResultSet;
import java.sql.SQLException;
import java.time.LocalDate;
import java.time.YearMonth;
import java.util.List;
import java.util.Objects;
import java.util.Optional;
import org.jspecify.annotations.Nullable;
import org.springframework.context.ApplicationEventPublisher;
import org.springframework.jdbc.core.simple.JdbcClient;
import org.springframework.stereotype.Component;
import org.springframework.transaction.annotation.Transactional;
import towerledger.account.Actor;
import towerledger.account.ChangeHistory;
import towerledger.account.Outcome;
import towerledger.site.FactsChanged;
import towerledger.site.Site;
import towerledger.site.Sites;

/** The bills utilities sent, kept by site, service and first day. */
@Component
@Transactional
public class UtilityBills {

  private static final String KEY = " WHERE site_id = ? AND service = ? AND from_date = ?";

  private final JdbcClient jdbc;
  private final Sites sites;
  private final ChangeHistory history;
  private final ApplicationEventPublisher events;

  UtilityBills(
      JdbcClient jdbc, Sites sites, ChangeHistory history, ApplicationEventPublisher events) {
    this.jdbc = jdbc;
    this.sites = sites;
    this.history = history;
    this.events = events;
  }

  /**
   * Adds a bill or corrects the one of the same service and first day; what the new row does not
   * know, the older still says.
   *
   * @throws TariffException when it overlaps another bill of the service
   */
  public Outcome put(Actor actor, Site site, UtilityBill bill) {
    Optional<UtilityBill> before = find(site, bill);
    UtilityBill after = before.map(old -> updated(old, bill)).orElse(bill);
    if (before.isPresent() && same(before.get(), after)) {
      return Outcome.UNCHANGED;
    }
    requireNoOverlap(site, after);
    jdbc.sql("DELETE FROM tariff_utility_bill" + KEY)
        .param(site.id())
        .param(after.service().code())
        .param(after.from())
        .update();
    jdbc.sql(
            """
            INSERT INTO tariff_utility_bill (customer_id, site_id, service, from_date, to_date,
              units, amount, credit_amount, estimated)
            VALUES (?, ?, ?, ?, ?, ?, ?, ?, ?)""")
        .param(site.customerId())
        .param(site.id())
        .param(after.service().code())
        .param(after.from())
        .param(after.to())
        .param(after.units())
        .param(after.amount())
        .param(after.creditAmount())
        .param(after.estimated())
        .update();
    history.record(
        actor,
        before.isPresent() ? "changed" : "added",
        "utility-bill",
        "%s %s %s".formatted(site.code(), after.service().code(), after.from()),
        site.customerId(),
        before.orElse(null),
        after);
    List<FactsChanged.Touched> touched =
        sites.listSystems(site).stream()
            .map(
                system ->
                    new FactsChanged.Touched(
                        system.id(),
                        YearMonth.from(after.from()),
                        YearMonth.from(after.to().minusDays(1))))
            .toList();
    if (!touched.isEmpty()) {
      events.publishEvent(new FactsChanged(touched, "utility bill of " + site.code()));
    }
    return before.isPresent() ? Outcome.CHANGED : Outcome.ADDED;
  }

  /** Bills of a site that bill any of the days, by service and first day. */
  @Transactional(readOnly = true)
  public List<UtilityBill> list(Site site, LocalDate fromInclusive, LocalDate toExclusive) {
    return jdbc.sql(
            """
            SELECT * FROM tariff_utility_bill
            WHERE site_id = ? AND from_date < ? AND to_date > ?
            ORDER BY service DESC, from_date""")
        .param(site.id())
        .param(toExclusive)
        .param(fromInclusive)
        .query(UtilityBills::bill)
        .list();
  }

  private Optional<UtilityBill> find(Site site, UtilityBill bill) {
    return jdbc.sql("SELECT * FROM tariff_utility_bill" + KEY)
        .param(site.id())
        .param(bill.service().code())
        .param(bill.from())
        .query(UtilityBills::bill)
        .optional();
  }

  private void requireNoOverlap(Site site, UtilityBill bill) {
    for (UtilityBill other : list(site, bill.from(), bill.to())) {
      if (other.service() == bill.service() && !other.from().equals(bill.from())) {
        throw new TariffException(
            site.code(),
            "%s bill of site %s from %s to %s overlaps the one from %s to %s; correct the dates"
                .formatted(
                    bill.service().code(),
                    site.code(),
                    bill.from(),
                    bill.to(),
                    other.from(),
                    other.to()));
      }
    }
  }

  private static UtilityBill updated(UtilityBill old, UtilityBill row) {
    return new UtilityBill(
        row.service(),
        row.from(),
        row.to(),
        row.units() == null ? old.units() : row.units(),
        row.amount() == null ? old.amount() : row.amount(),
        row.creditAmount() == null ? old.creditAmount() : row.creditAmount(),
        row.estimated() == null ? old.estimated() : row.estimated());
  }

  private static boolean same(UtilityBill one, UtilityBill other) {
    return one.to().equals(other.to())
        && equal(one.units(), other.units())
        && equal(one.amount(), other.amount())
        && equal(one.creditAmount(), other.creditAmount())
        && Objects.equals(one.estimated(), other.estimated());
  }

  private static boolean equal(@Nullable BigDecimal one, @Nullable BigDecimal other) {
    return (one == null || other == null)
        ? one == null && other == null
        : one.compareTo(other) == 0;
  }

  private static UtilityBill bill(ResultSet row, int number) throws SQLException {
    return new UtilityBill(
        Service.ofCode(row.getString("service")),
        row.getObject("from_date", LocalDate.class),
        row.getObject("to_date", LocalDate.class),
        row.getBigDecimal("units"),
        row.getBigDecimal("amount"),
        row.getBigDecimal("credit_amount"),
        row.getObject("estimated", Boolean.class));
  }
}
