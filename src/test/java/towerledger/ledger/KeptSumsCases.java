package towerledger.ledger;

import static org.assertj.core.api.Assertions.assertThat;
import static org.assertj.core.api.Assertions.within;

import java.math.BigDecimal;
import java.time.YearMonth;
import java.util.List;
import org.junit.jupiter.api.Test;
import org.springframework.beans.factory.annotation.Autowired;
import org.springframework.context.ApplicationContext;
import org.springframework.jdbc.core.simple.JdbcClient;

/** The sums kept for pages are those of the rows, after every way in which rows change. */
abstract class KeptSumsCases {

  private static final YearMonth MONTH = YearMonth.of(2019, 7);

  @Autowired ApplicationContext context;
  @Autowired JdbcClient jdbc;

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
    assertThat(kept.unclaimed()).isEqualByComparingTo(rows.unclaimed());
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
  void keepTheCreditsOfASiteAndYear() {
    new InventedPortfolio(context, prefix() + "Y").write(4, MONTH.minusMonths(9), MONTH);

    List<String> different =
        jdbc.sql(
                """
                SELECT s.code FROM ledger_site_year y JOIN site_site s ON s.id = y.site_id
                JOIN ledger_month m ON m.site_id = y.site_id
                  AND EXTRACT(YEAR FROM m.month_start) = y.of_year
                GROUP BY s.code, y.of_year, y.evaporated_l, y.due, y.credited, y.unclaimed
                HAVING COALESCE(y.due, 0) <> COALESCE(SUM(m.evaporation_credit_amount), 0)
                  OR COALESCE(y.credited, 0) <> COALESCE(SUM(m.credit_claimed_amount), 0)
                  OR COALESCE(y.unclaimed, 0) <> COALESCE(SUM(%s), 0)
                  OR ABS(y.evaporated_l - COALESCE(SUM(m.evaporation_l), 0)
                    - COALESCE(SUM(m.drift_l), 0)) > 1e-9 * y.evaporated_l"""
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
