package towerledger.ledger;

import java.math.BigDecimal;
import java.sql.ResultSet;
import java.sql.SQLException;
import java.time.LocalDate;
import java.time.YearMonth;
import java.util.ArrayList;
import java.util.Collection;
import java.util.Collections;
import java.util.Currency;
import java.util.LinkedHashMap;
import java.util.List;
import java.util.Locale;
import java.util.Map;
import java.util.stream.Collectors;
import org.springframework.jdbc.core.simple.JdbcClient;
import org.springframework.stereotype.Service;
import org.springframework.transaction.annotation.Transactional;
import towerledger.account.Viewer;
import towerledger.site.SiteAccess;

/**
 * The standing rows of all visible systems in a month, as the office reviews them: filtered,
 * ordered, paged and summed by the database, so that ten thousand systems cost a page no more than
 * ten.
 */
@Service
@Transactional(readOnly = true)
public class MonthReview {

  private static final String FROM =
      """
      FROM ledger_month m
      JOIN ledger_revision r ON r.system_id = m.system_id AND r.month_start = m.month_start
        AND r.revision = m.revision
      JOIN site_system y ON y.id = m.system_id
      JOIN site_site s ON s.id = m.site_id
      JOIN account_customer c ON c.id = m.customer_id
      """;

  private static final String LOST =
      """
      COALESCE(SUM(CASE WHEN r.waste THEN r.loss_amount END), 0) AS amount,
      SQRT(COALESCE(SUM(CASE WHEN r.waste
        THEN POWER((r.loss_amount_high - r.loss_amount_low) / 2, 2) END), 0)) AS half_width
      """;

  private final JdbcClient jdbc;
  private final SiteAccess access;

  MonthReview(JdbcClient jdbc, SiteAccess access) {
    this.jdbc = jdbc;
    this.access = access;
  }

  /**
   * Sums over systems whose makeup is metered, one a currency. Intervals of sums take the systems
   * as independent: their half-widths add as squares (JCGM 100:2008, 5.1.2).
   *
   * @param currency currency of the money
   * @param systems number of rows
   * @param metered how many of them have a makeup figure
   * @param makeupLitres metered makeup
   * @param soundLitres makeup that sound systems would have taken: makeup less unaccounted
   * @param soundHalfWidthLitres half-width of its 95 % interval
   * @param lossLitres water wasted
   * @param lossHalfWidthLitres half-width of its 95 % interval
   * @param lossAmount cost of it at the margin
   * @param lossAmountHalfWidth half-width of its 95 % interval
   * @param creditUnclaimed sewer credit deserved and not seen on a bill
   */
  public record Sum(
      Currency currency,
      int systems,
      int metered,
      int wasting,
      double makeupLitres,
      double soundLitres,
      double soundHalfWidthLitres,
      double lossLitres,
      double lossHalfWidthLitres,
      BigDecimal lossAmount,
      double lossAmountHalfWidth,
      BigDecimal creditUnclaimed) {}

  /** Money lost in one month, in one currency. */
  public record MonthLoss(
      YearMonth month, Currency currency, BigDecimal amount, double halfWidth) {}

  /** Money lost at one customer in one month. */
  public record CustomerLoss(
      String customer, String name, Currency currency, BigDecimal amount, double halfWidth) {}

  /** Number of rows that pass a filter. */
  public int count(Viewer viewer, YearMonth month, ReviewFilter filter) {
    Condition where = where(viewer, month, month, filter);
    return jdbc.sql("SELECT COUNT(*) " + FROM + where.sql())
        .params(where.parameters())
        .query(Integer.class)
        .single();
  }

  /** Some rows of a month in the filter's order. */
  public List<LedgerEntry> page(
      Viewer viewer, YearMonth month, ReviewFilter filter, int offset, int limit) {
    Condition where = where(viewer, month, month, filter);
    return jdbc.sql(
            """
            SELECT r.*, m.status AS standing_status, y.code AS system_code, y.name AS system_name,
              s.code AS site_code, s.name AS site_name, c.code AS customer_code,
              c.name AS customer_name
            """
                + FROM
                + where.sql()
                + " ORDER BY "
                + filter.order().sql()
                + " LIMIT "
                + limit
                + " OFFSET "
                + offset)
        .params(where.parameters())
        .query(Ledger::entry)
        .list();
  }

  /** Sums of the rows that pass a filter, one a currency, the largest loss first. */
  public List<Sum> sums(Viewer viewer, YearMonth month, ReviewFilter filter) {
    Condition where = where(viewer, month, month, filter);
    return jdbc.sql(
            """
            SELECT r.currency, COUNT(*) AS systems, COUNT(r.makeup_l) AS metered,
              SUM(CASE WHEN r.waste THEN 1 ELSE 0 END) AS wasting,
              COALESCE(SUM(r.makeup_l), 0) AS makeup,
              COALESCE(SUM(r.makeup_l - r.unaccounted_l), 0) AS sound,
              SQRT(COALESCE(SUM(POWER((r.unaccounted_high_l - r.unaccounted_low_l) / 2, 2)), 0))
                AS sound_half,
              COALESCE(SUM(CASE WHEN r.waste THEN r.loss_l END), 0) AS loss,
              SQRT(COALESCE(SUM(CASE WHEN r.waste
                THEN POWER((r.loss_high_l - r.loss_low_l) / 2, 2) END), 0)) AS loss_half,
              COALESCE(SUM(CASE WHEN r.waste THEN r.loss_amount END), 0) AS amount,
              SQRT(COALESCE(SUM(CASE WHEN r.waste
                THEN POWER((r.loss_amount_high - r.loss_amount_low) / 2, 2) END), 0))
                AS amount_half,
              COALESCE(SUM(\
            """
                + LedgerMoney.UNCLAIMED_SQL
                + "), 0) AS unclaimed "
                + FROM
                + where.sql()
                + " GROUP BY r.currency ORDER BY amount DESC, r.currency")
        .params(where.parameters())
        .query(MonthReview::sum)
        .list();
  }

  /** Money lost by month, oldest first, months without rows left out. */
  public List<MonthLoss> lossByMonth(
      Viewer viewer, YearMonth first, YearMonth last, ReviewFilter filter) {
    Condition where = where(viewer, first, last, filter);
    return jdbc.sql(
            "SELECT m.month_start, r.currency, "
                + LOST
                + FROM
                + where.sql()
                + " GROUP BY m.month_start, r.currency ORDER BY m.month_start, r.currency")
        .params(where.parameters())
        .query(
            (row, number) ->
                new MonthLoss(
                    YearMonth.from(row.getObject(1, LocalDate.class)),
                    Currency.getInstance(row.getString(2)),
                    row.getBigDecimal("amount"),
                    row.getDouble("half_width")))
        .list();
  }

  /** Money lost by customer, dearest first; customers who lost nothing are left out. */
  public List<CustomerLoss> lossByCustomer(Viewer viewer, YearMonth month, ReviewFilter filter) {
    Condition where = where(viewer, month, month, filter);
    return jdbc.sql(
            "SELECT c.code, c.name, r.currency, "
                + LOST
                + FROM
                + where.sql()
                + " GROUP BY c.code, c.name, r.currency"
                + " HAVING SUM(CASE WHEN r.waste THEN r.loss_amount END) > 0"
                + " ORDER BY amount DESC, c.code")
        .params(where.parameters())
        .query(
            (row, number) ->
                new CustomerLoss(
                    row.getString(1),
                    row.getString(2),
                    Currency.getInstance(row.getString(3)),
                    row.getBigDecimal("amount"),
                    row.getDouble("half_width")))
        .list();
  }

  /** Names of the visible customers by code, in order of name. */
  public Map<String, String> customers(Viewer viewer) {
    var scope = access.scope(viewer, "s.customer_id", "s.id");
    Map<String, String> names = new LinkedHashMap<>();
    jdbc.sql(
            "SELECT DISTINCT c.code, c.name FROM account_customer c"
                + " JOIN site_site s ON s.customer_id = c.id WHERE "
                + scope.sql()
                + " ORDER BY c.name, c.code")
        .params(scope.parameters())
        .query(
            row -> {
              names.put(row.getString(1), row.getString(2));
            });
    return names;
  }

  /** Standing rows of some systems, by system, oldest month first. */
  public Map<Long, List<LedgerEntry>> trends(
      Collection<Long> systemIds, YearMonth first, YearMonth last) {
    if (systemIds.isEmpty()) {
      return Map.of();
    }
    List<Object> parameters = new ArrayList<>(systemIds);
    parameters.add(first.atDay(1));
    parameters.add(last.atDay(1));
    return jdbc
        .sql(
            Ledger.ENTRY
                + "WHERE"
                + Ledger.STANDS
                + "AND r.system_id IN ("
                + String.join(", ", Collections.nCopies(systemIds.size(), "?"))
                + ") AND r.month_start >= ? AND r.month_start <= ? ORDER BY r.month_start")
        .params(parameters)
        .query(Ledger::entry)
        .list()
        .stream()
        .collect(Collectors.groupingBy(entry -> entry.of().systemId()));
  }

  private static Sum sum(ResultSet row, int number) throws SQLException {
    return new Sum(
        Currency.getInstance(row.getString("currency")),
        row.getInt("systems"),
        row.getInt("metered"),
        row.getInt("wasting"),
        row.getDouble("makeup"),
        row.getDouble("sound"),
        row.getDouble("sound_half"),
        row.getDouble("loss"),
        row.getDouble("loss_half"),
        row.getBigDecimal("amount"),
        row.getDouble("amount_half"),
        row.getBigDecimal("unclaimed"));
  }

  /** A condition with its parameters. */
  private record Condition(String sql, List<Object> parameters) {}

  private Condition where(Viewer viewer, YearMonth first, YearMonth last, ReviewFilter filter) {
    var scope = access.scope(viewer, "m.customer_id", "m.site_id");
    StringBuilder sql =
        new StringBuilder("WHERE m.month_start >= ? AND m.month_start <= ? AND ")
            .append(scope.sql());
    List<Object> parameters = new ArrayList<>(List.of(first.atDay(1), last.atDay(1)));
    parameters.addAll(scope.parameters());
    if (filter.customer() != null) {
      sql.append(" AND c.code = ?");
      parameters.add(filter.customer());
    }
    if (filter.verdict() != null) {
      sql.append(" AND ").append(filter.verdict().sql());
    }
    if (filter.evidence() != null) {
      sql.append(" AND r.evidence = ?");
      parameters.add(filter.evidence().name());
    }
    if (!filter.search().isBlank()) {
      sql.append(
          " AND LOWER(y.code || ' ' || y.name || ' ' || s.code || ' ' || s.name || ' ' || c.name)"
              + " LIKE ? ESCAPE '!'");
      parameters.add("%" + escaped(filter.search()) + "%");
    }
    return new Condition(sql.append(' ').toString(), parameters);
  }

  private static String escaped(String search) {
    return search
        .strip()
        .toLowerCase(Locale.ROOT)
        .replace("!", "!!")
        .replace("%", "!%")
        .replace("_", "!_");
  }
}
