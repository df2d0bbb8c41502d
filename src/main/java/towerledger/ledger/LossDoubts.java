package towerledger.ledger;

import java.sql.ResultSet;
import java.sql.SQLException;
import java.time.LocalDate;
import java.time.YearMonth;
import java.util.HashMap;
import java.util.List;
import java.util.Map;
import org.springframework.jdbc.core.simple.JdbcClient;

/** What is not sure of the waste that {@link MonthReview} sums, from the rows that waste. */
final class LossDoubts {

  private static final String AMOUNTS =
      """
      SUM(POWER(m.loss_amount - m.loss_amount_low, 2)) AS amount_below,
        SUM(POWER(m.loss_amount_high - m.loss_amount, 2)) AS amount_above
      """;

  private LossDoubts() {}

  /**
   * Of one month in one currency.
   *
   * @param unpriced systems whose waste has no price
   * @param amount of the cost
   * @param litres of the water, L
   */
  record OfMonth(int unpriced, Doubt amount, Doubt litres) {

    static final OfMonth NONE = new OfMonth(0, Doubt.NONE, Doubt.NONE);
  }

  /** A month in a currency. */
  record Slot(YearMonth month, String currency) {}

  /**
   * By currency.
   *
   * @param where a condition on {@code ledger_month m}, beginning with WHERE
   */
  static Map<String, OfMonth> ofMonth(JdbcClient jdbc, String where, List<Object> parameters) {
    Map<String, OfMonth> doubts = new HashMap<>();
    jdbc.sql(
            """
            SELECT m.currency, COUNT(*) - COUNT(m.loss_amount) AS unpriced, %s,
              SUM(POWER(m.loss_l - m.loss_low_l, 2)) AS litres_below,
              SUM(POWER(m.loss_high_l - m.loss_l, 2)) AS litres_above
            FROM ledger_month m %s AND m.waste = TRUE GROUP BY m.currency"""
                .formatted(AMOUNTS, where))
        .params(parameters)
        .query(
            row -> {
              doubts.put(
                  row.getString("currency"),
                  new OfMonth(row.getInt("unpriced"), doubt(row, "amount"), doubt(row, "litres")));
            });
    return doubts;
  }

  /**
   * Of the cost, by month and currency.
   *
   * @param where a condition on {@code ledger_month m}, empty or beginning with AND
   * @param parameters first and last month, and those of the condition
   */
  static Map<Slot, Doubt> byMonth(JdbcClient jdbc, String where, List<Object> parameters) {
    Map<Slot, Doubt> doubts = new HashMap<>();
    jdbc.sql(
            """
            SELECT m.month_start, m.currency, %s
            FROM ledger_month m
            WHERE m.waste = TRUE AND m.month_start >= ? AND m.month_start <= ? %s
            GROUP BY m.month_start, m.currency"""
                .formatted(AMOUNTS, where))
        .params(parameters)
        .query(
            row -> {
              doubts.put(
                  new Slot(
                      YearMonth.from(row.getObject("month_start", LocalDate.class)),
                      row.getString("currency")),
                  doubt(row, "amount"));
            });
    return doubts;
  }

  private static Doubt doubt(ResultSet row, String of) throws SQLException {
    return new Doubt(
        Math.sqrt(row.getDouble(of + "_below")), Math.sqrt(row.getDouble(of + "_above")));
  }
}
