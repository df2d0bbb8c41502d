package towerledger.ledger;

import static org.assertj.core.api.Assertions.assertThat;
import static org.assertj.core.api.Assertions.within;

import java.math.BigDecimal;
import java.time.YearMonth;
import java.util.List;
import java.util.Map;
import org.junit.jupiter.api.Test;
import org.springframework.beans.factory.annotation.Autowired;
import org.springframework.context.ApplicationContext;
import org.springframework.jdbc.core.simple.JdbcClient;
import towerledger.account.Role;
import towerledger.account.TokenScope;
import towerledger.account.UnitPreference;
import towerledger.account.Viewer;
import towerledger.query.Questions;

/** The sums kept for pages are those of the rows, after every way in which rows change. */
abstract class KeptSumsCases {

  private static final YearMonth MONTH = YearMonth.of(2019, 7);

  @Autowired ApplicationContext context;
  @Autowired JdbcClient jdbc;
  @Autowired MonthReview review;
  @Autowired RememberedReview remembered;
  @Autowired Questions questions;

  abstract String prefix();

  private record Sums(
      int systems,
      int metered,
      int wasting,
      double makeup,
      double sound,
      double soundSquares,
      double loss,
      double lossSquares,
      BigDecimal amount,
      double amountSquares,
      BigDecimal unclaimed) {}

  private Sums sums(String columns, String table) {
    return jdbc.sql("SELECT %s FROM %s m WHERE m.month_start = ?".formatted(columns, table))
        .param(MONTH.atDay(1))
        .query(
            (row, number) ->
                new Sums(
                    row.getInt("systems"),
                    row.getInt("metered"),
                    row.getInt("wasting"),
                    row.getDouble("makeup_l"),
                    row.getDouble("sound_l"),
                    row.getDouble("sound_squares_l2"),
                    row.getDouble("loss_l"),
                    row.getDouble("loss_squares_l2"),
                    row.getBigDecimal("loss_amount"),
                    row.getDouble("loss_amount_squares"),
                    row.getBigDecimal("credit_unclaimed")))
        .single();
  }

  private void keptAreThoseOfTheRows() {
    Sums kept = sums(SlotSums.KEPT, "ledger_slot_month");
    Sums rows = sums(SlotSums.SUMS, "ledger_month");
    assertThat(kept.systems()).isPositive().isEqualTo(rows.systems());
    assertThat(kept.metered()).isEqualTo(rows.metered());
    assertThat(kept.wasting()).isEqualTo(rows.wasting());
    assertThat(kept.amount()).isEqualByComparingTo(rows.amount());
    assertThat(kept.unclaimed()).usingComparator(BigDecimal::compareTo).isEqualTo(rows.unclaimed());
    // doubles added in another order
    for (double[] pair :
        List.of(
            new double[] {kept.makeup(), rows.makeup()},
            new double[] {kept.sound(), rows.sound()},
            new double[] {kept.soundSquares(), rows.soundSquares()},
            new double[] {kept.loss(), rows.loss()},
            new double[] {kept.lossSquares(), rows.lossSquares()},
            new double[] {kept.amountSquares(), rows.amountSquares()})) {
      assertThat(pair[0]).isCloseTo(pair[1], within(Math.abs(pair[1]) * 1e-12));
    }
  }

  @Test
  void followTheRowsThroughFirstReckoningsAndCorrections() {
    // given
    new InventedPortfolio(context, prefix()).write(12, MONTH.minusMonths(1), MONTH);

    // then
    keptAreThoseOfTheRows();

    // when a wasting month is added and then found to be sound
    var months = new InventedMonths(context, prefix() + "R", "Restated", "Zoë", "z@sums.example");
    months.write(MONTH, InventedMonths.Kind.BAD, InventedMonths.instant(MONTH, 28), "first");
    keptAreThoseOfTheRows();
    int wasting = sums(SlotSums.KEPT, "ledger_slot_month").wasting();
    months.write(MONTH, InventedMonths.Kind.GOOD, InventedMonths.instant(MONTH, 29), "corrected");

    // then
    assertThat(sums(SlotSums.KEPT, "ledger_slot_month").wasting()).isLessThan(wasting);
    keptAreThoseOfTheRows();
  }

  @Test
  void tellTheDearestCustomersAndTheOthersTogetherAsTheDatabaseAddsThemUp() {
    YearMonth month = MONTH.minusYears(1);
    new InventedPortfolio(context, prefix() + "L").write(40, month, month);
    Viewer office = office();

    CustomerLosses losses =
        questions
            .answer(MonthReview.named(review.rankedLosses(office, month, ReviewFilter.all(), 2)))
            .stream()
            .filter(of -> of.currency().getCurrencyCode().equals("USD"))
            .findFirst()
            .orElseThrow();
    List<Map<String, Object>> rows =
        jdbc.sql(
                """
                SELECT c.code, SUM(m.loss_amount) AS amount,
                  SQRT(SUM(POWER(m.loss_amount_high - m.loss_amount, 2))) AS above
                FROM ledger_month m JOIN account_customer c ON c.id = m.customer_id
                WHERE m.month_start = ? AND m.waste = TRUE AND m.currency = 'USD'
                GROUP BY c.code HAVING SUM(m.loss_amount) > 0 ORDER BY 2 DESC""")
            .param(month.atDay(1))
            .query()
            .listOfRows();

    assertThat(rows).hasSizeGreaterThan(2);
    assertThat(losses.customers()).isEqualTo(rows.size());
    assertThat(losses.dearest()).hasSize(2);
    BigDecimal others = BigDecimal.ZERO;
    for (int i = 0; i < rows.size(); i++) {
      BigDecimal amount = (BigDecimal) rows.get(i).get("amount");
      if (i < 2) {
        CustomerLosses.Loss loss = losses.dearest().get(i);
        assertThat(loss.customer()).isEqualTo(rows.get(i).get("code"));
        assertThat(loss.amount()).isEqualByComparingTo(amount);
        double above = ((Number) rows.get(i).get("above")).doubleValue();
        assertThat(loss.doubt().above()).isCloseTo(above, within(above * 1e-9));
      } else {
        others = others.add(amount);
      }
    }
    assertThat(losses.amountBeyond(2)).isEqualByComparingTo(others);
  }

  @Test
  void aMonthInWhichNothingIsMeteredIsNotSaidToHaveLostNothing() {
    YearMonth month = MONTH.minusYears(5);
    String customer = prefix() + "U";
    new InventedMonths(context, customer, "Unmetered", "Zoë", "u@sums.example")
        .write(
            month,
            InventedMonths.Kind.NO_EVIDENCE,
            InventedMonths.instant(month, 28),
            "nothing metered");
    ReviewFilter its = new ReviewFilter(customer, null, null, "", ReviewFilter.all().order());

    assertThat(review.sums(office(), month, its).get(0).metered()).isZero();
    assertThat(review.lossByMonth(office(), month, month, its)).isEmpty();
    assertThat(review.lossByMonth(office(), month, month, ReviewFilter.all())).isEmpty();
  }

  @Test
  void tellHowFarTheWasteMayLieBelowAndAboveAsItsRowsDo() {
    YearMonth month = MONTH.minusYears(4);
    new InventedPortfolio(context, prefix() + "D").write(12, month, month);
    Map<String, Object> rows =
        jdbc.sql(
                """
                SELECT SQRT(SUM(POWER(m.loss_amount - m.loss_amount_low, 2))) AS below,
                  SQRT(SUM(POWER(m.loss_high_l - m.loss_l, 2))) AS above
                FROM ledger_month m
                WHERE m.month_start = ? AND m.waste = TRUE AND m.currency = 'USD'""")
            .param(month.atDay(1))
            .query()
            .singleRow();

    MonthReview.Sum sum =
        review.sums(office(), month, ReviewFilter.all()).stream()
            .filter(of -> of.currency().getCurrencyCode().equals("USD"))
            .findFirst()
            .orElseThrow();
    MonthReview.MonthLoss loss =
        review.lossByMonth(office(), month, month, ReviewFilter.all()).stream()
            .filter(of -> of.currency().getCurrencyCode().equals("USD"))
            .findFirst()
            .orElseThrow();

    double below = ((Number) rows.get("below")).doubleValue();
    double above = ((Number) rows.get("above")).doubleValue();
    assertThat(below).isPositive();
    assertThat(sum.unpriced()).isZero();
    assertThat(sum.lossAmountDoubt().below()).isCloseTo(below, within(below * 1e-9));
    assertThat(sum.lossDoubt().above()).isCloseTo(above, within(above * 1e-9));
    assertThat(loss.doubt()).isEqualTo(sum.lossAmountDoubt());
  }

  private static Viewer office() {
    return new Viewer(
        1,
        "o@sums.example",
        "O",
        Role.OFFICE,
        null,
        TokenScope.ALL,
        false,
        UnitPreference.US,
        "en");
  }

  @Test
  void areRememberedOnlyUntilTheLedgerChanges() {
    YearMonth month = MONTH.minusYears(3);
    var months = new InventedMonths(context, prefix() + "M", "Memory", "Zoë", "m@sums.example");
    months.write(month, InventedMonths.Kind.BAD, InventedMonths.instant(month, 28), "first");
    long system =
        jdbc.sql("SELECT system_id FROM ledger_month WHERE month_start = ? AND waste = TRUE")
            .param(month.atDay(1))
            .query(Long.class)
            .list()
            .get(0);
    RememberedReview.Portfolio wasting = portfolio(month);
    List<TrendMonth> line =
        remembered.lines(wasting.changes(), List.of(system), month, month).get(system);
    assertThat(portfolio(month)).isEqualTo(wasting);
    assertThat(wasting.sums()).isEqualTo(review.sums(office(), month, ReviewFilter.all()));
    assertThat(wasting.customers()).isNotEmpty();

    // when the month is found to be sound
    months.write(month, InventedMonths.Kind.GOOD, InventedMonths.instant(month, 29), "corrected");

    RememberedReview.Portfolio sound = portfolio(month);
    assertThat(sound.sums()).isEqualTo(review.sums(office(), month, ReviewFilter.all()));
    assertThat(sound.months())
        .isEqualTo(review.lossByMonth(office(), month, month, ReviewFilter.all()));
    assertThat(sound.sums().get(0).wasting()).isLessThan(wasting.sums().get(0).wasting());
    assertThat(sound.customers()).isNotEqualTo(wasting.customers());
    assertThat(remembered.lines(sound.changes(), List.of(system), month, month).get(system))
        .isNotEqualTo(line);
  }

  private RememberedReview.Portfolio portfolio(YearMonth month) {
    long changes = questions.answer(RememberedReview.changes());
    return remembered.portfolio(office(), changes, month, month, ReviewFilter.all(), 50);
  }

  @Test
  void drawLinesFromTheFiguresOfTheStandingRevision() {
    var months = new InventedMonths(context, prefix() + "N", "Line", "Zoë", "n@sums.example");
    YearMonth month = MONTH.minusYears(2);
    months.write(month, InventedMonths.Kind.BAD, InventedMonths.instant(month, 28), "first");
    months.write(month, InventedMonths.Kind.GOOD, InventedMonths.instant(month, 29), "corrected");

    List<Map<String, Object>> standing =
        jdbc.sql(
                """
                SELECT r.system_id, r.waste, r.makeup_l, r.expected_low_l, r.expected_high_l
                FROM ledger_revision r JOIN ledger_month m ON m.system_id = r.system_id
                  AND m.month_start = r.month_start AND m.revision = r.revision
                WHERE r.month_start = ?""")
            .param(month.atDay(1))
            .query()
            .listOfRows();

    assertThat(standing).isNotEmpty();
    for (Map<String, Object> row : standing) {
      long system = ((Number) row.get("system_id")).longValue();
      assertThat(review.lines(List.of(system), month, month).get(system))
          .containsExactly(
              new TrendMonth(
                  month,
                  (Boolean) row.get("waste"),
                  (Double) row.get("makeup_l"),
                  (Double) row.get("expected_low_l"),
                  (Double) row.get("expected_high_l")));
    }
  }

  @Test
  void keepTheCreditsOfASiteAndYear() {
    new InventedPortfolio(context, prefix() + "Y").write(4, MONTH.minusMonths(9), MONTH);

    List<String> different =
        jdbc.sql(
                """
                SELECT s.code FROM ledger_site_year y JOIN site_site s ON s.id = y.site_id
                JOIN ledger_month m ON m.site_id = y.site_id
                  AND EXTRACT(YEAR FROM m.month_start) = y.of_year
                GROUP BY s.code, y.of_year, y.evaporated_l, y.evaporated_half_l, y.due, y.credited,
                  y.unclaimed
                HAVING COALESCE(y.due, 0) <> COALESCE(SUM(m.evaporation_credit_amount), 0)
                  OR COALESCE(y.credited, 0) <> COALESCE(SUM(m.credit_claimed_amount), 0)
                  OR COALESCE(y.unclaimed, 0) <> COALESCE(SUM(%s), 0)
                  OR ABS(y.evaporated_l - COALESCE(SUM(m.evaporation_l), 0)
                    - COALESCE(SUM(m.drift_l), 0)) > 1e-9 * y.evaporated_l
                  OR ABS(COALESCE(y.evaporated_half_l, -1)
                    - COALESCE(SUM(m.evaporation_half_l), -1)) > 1e-9 * y.evaporated_l"""
                    .formatted(LedgerMoney.UNCLAIMED_SQL))
            .query(String.class)
            .list();
    long years =
        jdbc.sql(
                """
                SELECT COUNT(*) FROM ledger_site_year y JOIN site_site s ON s.id = y.site_id
                WHERE s.code LIKE ?""")
            .param(prefix() + "YS%")
            .query(Long.class)
            .single();

    assertThat(different).isEmpty();
    assertThat(years).as("four sites in 2018 and 2019").isEqualTo(8);
  }
}
