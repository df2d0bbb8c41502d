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
import java.util.HashMap;
import java.util.List;
import java.util.Locale;
import java.util.Map;
import java.util.Optional;
import java.util.Set;
import java.util.stream.Collectors;
import org.jspecify.annotations.Nullable;
import org.springframework.jdbc.core.simple.JdbcClient;
import org.springframework.stereotype.Service;
import org.springframework.transaction.annotation.Transactional;
import towerledger.account.Viewer;
import towerledger.quantity.Money;
import towerledger.query.Question;
import towerledger.query.Questions;
import towerledger.site.SiteAccess;

/**
 * The standing rows of all visible systems in a month, as the office reviews them: filtered,
 * ordered, paged and summed by the database, so that ten thousand systems cost a page no more than
 * ten.
 */
@Service
@Transactional(readOnly = true)
public class MonthReview {

  private static final String NAMES =
      """
      JOIN site_system y ON y.id = m.system_id
      JOIN site_site s ON s.id = m.site_id
      JOIN account_customer c ON c.id = m.customer_id
      """;

  /** Months without waste count too: they are known to have lost nothing. */
  private static final String LOST =
      """
      COALESCE(SUM(CASE WHEN m.waste THEN m.loss_amount END), 0) AS amount
      """;

  private static final String FROM_MONTHS = " FROM ledger_month m ";

  private final JdbcClient jdbc;
  private final Questions questions;
  private final SiteAccess access;

  MonthReview(JdbcClient jdbc, Questions questions, SiteAccess access) {
    this.jdbc = jdbc;
    this.questions = questions;
    this.access = access;
  }

  /**
   * Sums over systems whose makeup is metered, one a currency. Intervals of sums take the systems
   * as independent: what lies below and above adds as squares (JCGM 100:2008, 5.1.2).
   *
   * @param currency currency of the money
   * @param systems number of rows
   * @param metered how many of them have a makeup figure
   * @param wasting how many of them waste water
   * @param unpriced how many of those have no price for it
   * @param makeupLitres metered makeup
   * @param soundLitres makeup that sound systems would have taken: makeup less unaccounted
   * @param soundHalfWidthLitres half-width of its 95 % interval
   * @param lossLitres water wasted
   * @param lossDoubt of the water, L
   * @param lossAmount cost of it at the margin
   * @param lossAmountDoubt of the cost
   * @param creditUnclaimed sewer credit deserved and not seen on a bill; null where none is known
   *     to be due
   */
  public record Sum(
      Currency currency,
      int systems,
      int metered,
      int wasting,
      int unpriced,
      double makeupLitres,
      double soundLitres,
      double soundHalfWidthLitres,
      double lossLitres,
      Doubt lossDoubt,
      BigDecimal lossAmount,
      Doubt lossAmountDoubt,
      @Nullable BigDecimal creditUnclaimed) {

    /** Credit still to be claimed; empty where none is. */
    public Optional<Money> creditToClaim() {
      return creditKnown().filter(credit -> credit.amount().signum() > 0);
    }

    /** Credit still to be claimed, nought where all is; empty where none is known to be due. */
    public Optional<Money> creditKnown() {
      return Optional.ofNullable(creditUnclaimed).map(amount -> new Money(amount, currency));
    }
  }

  /** Money lost in one month, in one currency. */
  public record MonthLoss(YearMonth month, Currency currency, BigDecimal amount, Doubt doubt) {}

  /** Some rows of a month in the filter's order. */
  public List<LedgerEntry> page(
      Viewer viewer, YearMonth month, ReviewFilter filter, int offset, int limit) {
    return questions.answer(rows(viewer, month, filter, offset, limit));
  }

  /** The same as a question. */
  public Question<List<LedgerEntry>> rows(
      Viewer viewer, YearMonth month, ReviewFilter filter, int offset, int limit) {
    Condition where = where(viewer, month, filter);
    String order = " ORDER BY " + filter.order().sql();
    String paged =
        "SELECT m.* FROM ledger_month m "
            + (filter.order() == ReviewFilter.Order.NAME ? NAMES : "")
            + where.sql()
            + order
            + " LIMIT "
            + limit
            + " OFFSET "
            + offset;
    return Question.rows(
        Ledger.FIGURES
            + "FROM ("
            + paged
            + ") m JOIN ledger_revision r ON r.system_id = m.system_id"
            + " AND r.month_start = m.month_start AND r.revision = m.revision "
            + NAMES
            + order,
        where.parameters(),
        Ledger::entry);
  }

  /**
   * Sums of the rows that pass a filter, one a currency, the largest loss first. Those over all
   * systems are kept ready; others are summed from their rows.
   */
  public List<Sum> sums(Viewer viewer, YearMonth month, ReviewFilter filter) {
    boolean all = coversAll(viewer, filter);
    Condition where =
        all
            ? new Condition("WHERE m.month_start = ? ", List.of(month.atDay(1)))
            : where(viewer, month, filter);
    Map<String, LossDoubts.OfMonth> doubts =
        LossDoubts.ofMonth(jdbc, where.sql(), where.parameters());
    return jdbc.sql(
            "SELECT m.currency, "
                + (all ? SlotSums.KEPT + "FROM ledger_slot_month m " : SlotSums.SUMS + FROM_MONTHS)
                + where.sql()
                + " GROUP BY m.currency ORDER BY loss_amount DESC, m.currency")
        .params(where.parameters())
        .query((row, number) -> sum(row, doubts))
        .list();
  }

  /** Money lost by month, oldest first; months in which nothing is metered are left out. */
  public List<MonthLoss> lossByMonth(
      Viewer viewer, YearMonth first, YearMonth last, ReviewFilter filter) {
    boolean all = coversAll(viewer, filter);
    Condition where = all ? new Condition("", List.of()) : where(viewer, filter);
    List<Object> parameters = new ArrayList<>(List.of(first.atDay(1), last.atDay(1)));
    parameters.addAll(where.parameters());
    Map<LossDoubts.Slot, Doubt> doubts = LossDoubts.byMonth(jdbc, where.sql(), parameters);
    return jdbc.sql(
            "SELECT m.month_start, m.currency, "
                + (all
                    ? "SUM(m.loss_amount) AS amount FROM ledger_slot_month m"
                    : LOST + FROM_MONTHS)
                + " WHERE m.month_start >= ? AND m.month_start <= ?"
                + where.sql()
                + " GROUP BY m.month_start, m.currency HAVING "
                + (all ? "SUM(m.metered)" : "COUNT(m.makeup_l)")
                + " > 0 ORDER BY m.month_start, m.currency")
        .params(parameters)
        .query(
            (row, number) -> {
              YearMonth month = YearMonth.from(row.getObject(1, LocalDate.class));
              String currency = row.getString(2);
              return new MonthLoss(
                  month,
                  Currency.getInstance(currency),
                  row.getBigDecimal("amount"),
                  doubts.getOrDefault(new LossDoubts.Slot(month, currency), Doubt.NONE));
            })
        .list();
  }

  /**
   * Money lost by customer, dearest first, without their names; customers who lost nothing are left
   * out.
   *
   * @param limit how many to tell apart in each currency; the others are told together
   */
  List<RankedLosses> rankedLosses(Viewer viewer, YearMonth month, ReviewFilter filter, int limit) {
    Condition where = where(viewer, month, filter);
    LossesSummed sums = new LossesSummed();
    // added up here: over an index alone the rows come quicker than either database groups them
    jdbc.sql(
            "SELECT m.customer_id, m.currency, m.loss_amount, m.loss_amount_low,"
                + " m.loss_amount_high"
                + FROM_MONTHS
                + where.sql()
                + " AND m.waste = TRUE")
        .params(where.parameters())
        .query(
            row -> {
              sums.add(
                  row.getLong(1),
                  row.getString(2),
                  row.getBigDecimal(3),
                  row.getBigDecimal(4),
                  row.getBigDecimal(5));
            });
    return sums.ranked(limit);
  }

  /** Gives customers the names they have now, as a question. */
  public static Question<List<CustomerLosses>> named(List<RankedLosses> losses) {
    Set<Long> dearest =
        losses.stream()
            .flatMap(of -> of.dearest().stream())
            .map(RankedLosses.Lost::customer)
            .collect(Collectors.toSet());
    return Question.named(
            "SELECT c.id, c.code, c.name FROM account_customer c WHERE c.id IN (:ids)",
            Map.of("ids", dearest),
            (row, number) ->
                Map.entry(row.getLong(1), new String[] {row.getString(2), row.getString(3)}))
        .then(
            rows -> {
              Map<Long, String[]> names =
                  rows.stream().collect(Collectors.toMap(Map.Entry::getKey, Map.Entry::getValue));
              return losses.stream().map(of -> named(of, names)).toList();
            });
  }

  private static CustomerLosses named(RankedLosses losses, Map<Long, String[]> names) {
    return new CustomerLosses(
        Currency.getInstance(losses.currency()),
        losses.dearest().stream().map(lost -> named(lost, names)).toList(),
        losses.customers(),
        losses.amount());
  }

  private static CustomerLosses.Loss named(RankedLosses.Lost lost, Map<Long, String[]> names) {
    String[] name = names.getOrDefault(lost.customer(), new String[] {"", ""});
    return new CustomerLosses.Loss(name[0], name[1], lost.amount(), lost.doubt());
  }

  /** What a line of a system's months is drawn of, by system, oldest month first. */
  public Map<Long, List<TrendMonth>> lines(
      Collection<Long> systemIds, YearMonth first, YearMonth last) {
    if (systemIds.isEmpty()) {
      return Map.of();
    }
    Map<Long, List<TrendMonth>> lines = new HashMap<>();
    jdbc.sql(
            """
            SELECT m.system_id, m.month_start, m.waste, m.makeup_l, m.expected_low_l,
              m.expected_high_l
            FROM (VALUES %s) AS k (id) JOIN ledger_month m ON m.system_id = k.id
            WHERE m.month_start >= ? AND m.month_start <= ?
            ORDER BY m.system_id, m.month_start"""
                .formatted(
                    String.join(
                        ", ", Collections.nCopies(systemIds.size(), "(CAST(? AS BIGINT))"))))
        .params(parameters(systemIds, first, last))
        .query(
            row -> {
              lines
                  .computeIfAbsent(row.getLong(1), id -> new ArrayList<>())
                  .add(
                      new TrendMonth(
                          YearMonth.from(row.getObject(2, LocalDate.class)),
                          row.getBoolean(3),
                          row.getObject(4, Double.class),
                          row.getObject(5, Double.class),
                          row.getObject(6, Double.class)));
            });
    return lines;
  }

  /** Standing rows of some systems, by system, oldest month first. */
  public Map<Long, List<LedgerEntry>> trends(
      Collection<Long> systemIds, YearMonth first, YearMonth last) {
    if (systemIds.isEmpty()) {
      return Map.of();
    }
    return jdbc
        .sql(
            Ledger.ENTRY
                + "WHERE"
                + Ledger.STANDS
                + "AND r.system_id IN ("
                + String.join(", ", Collections.nCopies(systemIds.size(), "?"))
                + ") AND r.month_start >= ? AND r.month_start <= ? ORDER BY r.month_start")
        .params(parameters(systemIds, first, last))
        .query(Ledger::entry)
        .list()
        .stream()
        .collect(Collectors.groupingBy(entry -> entry.of().systemId()));
  }

  private static List<Object> parameters(
      Collection<Long> systemIds, YearMonth first, YearMonth last) {
    List<Object> parameters = new ArrayList<>(systemIds);
    parameters.add(first.atDay(1));
    parameters.add(last.atDay(1));
    return parameters;
  }

  private static Sum sum(ResultSet row, Map<String, LossDoubts.OfMonth> doubts)
      throws SQLException {
    String currency = row.getString("currency");
    LossDoubts.OfMonth waste = doubts.getOrDefault(currency, LossDoubts.OfMonth.NONE);
    return new Sum(
        Currency.getInstance(currency),
        row.getInt("systems"),
        row.getInt("metered"),
        row.getInt("wasting"),
        waste.unpriced(),
        row.getDouble("makeup_l"),
        row.getDouble("sound_l"),
        Math.sqrt(row.getDouble("sound_squares_l2")),
        row.getDouble("loss_l"),
        waste.litres(),
        row.getBigDecimal("loss_amount"),
        waste.amount(),
        row.getBigDecimal("credit_unclaimed"));
  }

  /** Whether nothing is left out, so that the sums kept ready are the answer. */
  static boolean coversAll(Viewer viewer, ReviewFilter filter) {
    return filter.isOpen() && viewer.canAdminister();
  }

  /** A condition with its parameters. */
  private record Condition(String sql, List<Object> parameters) {}

  private Condition where(Viewer viewer, YearMonth month, ReviewFilter filter) {
    Condition passing = where(viewer, filter);
    List<Object> parameters = new ArrayList<>(List.of(month.atDay(1)));
    parameters.addAll(passing.parameters());
    return new Condition("WHERE m.month_start = ?" + passing.sql(), parameters);
  }

  /** Beginning with AND. */
  private Condition where(Viewer viewer, ReviewFilter filter) {
    var scope = access.scope(viewer, "m.customer_id", "m.site_id");
    StringBuilder sql = new StringBuilder(" AND ").append(scope.sql());
    List<Object> parameters = new ArrayList<>(scope.parameters());
    if (filter.customer() != null) {
      sql.append(" AND m.customer_id IN (SELECT k.id FROM account_customer k WHERE k.code = ?)");
      parameters.add(filter.customer());
    }
    if (filter.verdict() != null) {
      sql.append(" AND ").append(filter.verdict().sql());
    }
    if (filter.evidence() != null) {
      sql.append(" AND m.evidence = ?");
      parameters.add(filter.evidence().name());
    }
    if (!filter.search().isBlank()) {
      sql.append(
          """

          AND m.system_id IN (SELECT f.id FROM site_system f JOIN site_site t ON t.id = f.site_id
            JOIN account_customer k ON k.id = f.customer_id
            WHERE LOWER(f.code || ' ' || f.name || ' ' || t.code || ' ' || t.name || ' ' || k.name)
              LIKE ? ESCAPE '!')""");
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
