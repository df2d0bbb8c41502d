package towerledger.office.credits;

import java.math.BigDecimal;
import java.util.ArrayList;
import java.util.Currency;
import java.util.List;
import java.util.Optional;
import org.jspecify.annotations.Nullable;
import org.springframework.jdbc.core.simple.JdbcClient;
import org.springframework.stereotype.Component;
import org.springframework.transaction.annotation.Transactional;
import towerledger.account.Viewer;
import towerledger.ledger.LedgerMoney;
import towerledger.site.SiteAccess;

/** Credits of a year by site, summed and paged by the database. */
@Component
@Transactional(readOnly = true)
class CreditSums {

  private static final String FROM =
      """
      FROM ledger_month m
      JOIN ledger_revision r ON r.system_id = m.system_id AND r.month_start = m.month_start
        AND r.revision = m.revision
      JOIN site_site s ON s.id = m.site_id
      JOIN account_customer c ON c.id = m.customer_id
      WHERE m.month_start >= CAST(? AS DATE) AND m.month_start < CAST(? AS DATE)
        AND %s
      """;

  private final JdbcClient jdbc;
  private final SiteAccess access;

  CreditSums(JdbcClient jdbc, SiteAccess access) {
    this.jdbc = jdbc;
    this.access = access;
  }

  /**
   * A site in a year.
   *
   * @param litres evaporated and drifted
   * @param due credit by the utility's rule; null where no rule or no figure is known
   * @param credited what the utility's bills show
   * @param unclaimed still to be claimed, month by month; null where nothing is known to be due
   */
  record SiteYear(
      String site,
      String name,
      String customer,
      Currency currency,
      double litres,
      @Nullable BigDecimal due,
      @Nullable BigDecimal credited,
      @Nullable BigDecimal unclaimed) {}

  private List<Object> parameters(int year, SiteAccess.Scope scope) {
    List<Object> parameters = new ArrayList<>(List.of(year + "-01-01", (year + 1) + "-01-01"));
    parameters.addAll(scope.parameters());
    return parameters;
  }

  /** Visible sites, most unclaimed first. */
  List<SiteYear> list(Viewer viewer, int year, int offset, int limit) {
    var scope = access.scope(viewer, "m.customer_id", "m.site_id");
    List<Object> parameters = parameters(year, scope);
    parameters.add(offset);
    parameters.add(limit);
    return jdbc.sql(
            """
            SELECT s.code, s.name, c.name AS customer_name, c.currency,
              COALESCE(SUM(r.evaporation_l), 0) + COALESCE(SUM(r.drift_l), 0) AS litres,
              SUM(m.evaporation_credit_amount) AS due, SUM(m.credit_claimed_amount) AS credited,
              SUM(\
            """
                + LedgerMoney.UNCLAIMED_SQL
                + ") AS unclaimed "
                + FROM.formatted(scope.sql())
                + """
                GROUP BY s.code, s.name, c.name, c.currency
                ORDER BY COALESCE(SUM(\
                """
                + LedgerMoney.UNCLAIMED_SQL
                + """
                ), 0) DESC, s.code
                OFFSET ? ROWS FETCH NEXT ? ROWS ONLY\
                """)
        .params(parameters)
        .query(
            (row, number) ->
                new SiteYear(
                    row.getString("code"),
                    row.getString("name"),
                    row.getString("customer_name"),
                    Currency.getInstance(row.getString("currency")),
                    row.getDouble("litres"),
                    row.getBigDecimal("due"),
                    row.getBigDecimal("credited"),
                    row.getBigDecimal("unclaimed")))
        .list();
  }

  /** The newest year with a ledger row. */
  Optional<Integer> findNewestYear(Viewer viewer) {
    var scope = access.scope(viewer, "m.customer_id", "m.site_id");
    return jdbc.sql("SELECT MAX(m.month_start) FROM ledger_month m WHERE " + scope.sql())
        .params(scope.parameters())
        .query(java.time.LocalDate.class)
        .optional()
        .map(java.time.LocalDate::getYear);
  }
}
