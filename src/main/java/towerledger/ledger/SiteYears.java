package towerledger.ledger;

import java.math.BigDecimal;
import java.util.ArrayList;
import java.util.Currency;
import java.util.List;
import org.jspecify.annotations.Nullable;
import org.springframework.jdbc.core.simple.JdbcClient;
import org.springframework.stereotype.Component;
import org.springframework.transaction.annotation.Transactional;
import towerledger.account.Viewer;
import towerledger.site.SiteAccess;

/** Credits of a year by site, as the ledger keeps them summed; paged by the database. */
@Component
@Transactional(readOnly = true)
public class SiteYears {

  private final JdbcClient jdbc;
  private final SiteAccess access;

  SiteYears(JdbcClient jdbc, SiteAccess access) {
    this.jdbc = jdbc;
    this.access = access;
  }

  /**
   * A site in a year.
   *
   * @param site its code
   * @param name its name
   * @param customer whose it is
   * @param currency of the amounts
   * @param litres evaporated and drifted; zero where nothing is known
   * @param halfWidth half of its 95 % interval, L; null where a month has none
   * @param due credit by the utility's rule; null where no rule or no figure is known
   * @param credited what the utility's bills show
   * @param unclaimed still to be claimed, month by month; null where nothing is known to be due
   */
  public record SiteYear(
      String site,
      String name,
      String customer,
      Currency currency,
      double litres,
      @Nullable Double halfWidth,
      @Nullable BigDecimal due,
      @Nullable BigDecimal credited,
      @Nullable BigDecimal unclaimed) {}

  /** Visible sites, most unclaimed first. */
  public List<SiteYear> list(Viewer viewer, int year, int offset, int limit) {
    var scope = access.scope(viewer, "y.customer_id", "y.site_id");
    List<Object> parameters = new ArrayList<>(List.of(year));
    parameters.addAll(scope.parameters());
    parameters.add(offset);
    parameters.add(limit);
    return jdbc.sql(
            """
            SELECT s.code, s.name, c.name AS customer_name, c.currency,
              y.evaporated_l AS litres, y.evaporated_half_l, y.due, y.credited, y.unclaimed
            FROM ledger_site_year y
            JOIN site_site s ON s.id = y.site_id
            JOIN account_customer c ON c.id = y.customer_id
            WHERE y.of_year = ? AND %s
            ORDER BY y.of_year, y.unclaimed DESC NULLS LAST, y.site_id
            OFFSET ? ROWS FETCH NEXT ? ROWS ONLY\
            """
                .formatted(scope.sql()))
        .params(parameters)
        .query(
            (row, number) ->
                new SiteYear(
                    row.getString("code"),
                    row.getString("name"),
                    row.getString("customer_name"),
                    Currency.getInstance(row.getString("currency")),
                    row.getDouble("litres"),
                    row.getObject("evaporated_half_l", Double.class),
                    row.getBigDecimal("due"),
                    row.getBigDecimal("credited"),
                    row.getBigDecimal("unclaimed")))
        .list();
  }
}
