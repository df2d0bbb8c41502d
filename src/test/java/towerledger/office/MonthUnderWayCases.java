package towerledger.office;

import static org.assertj.core.api.Assertions.assertThat;

import java.time.YearMonth;
import java.time.ZoneOffset;
import java.time.format.DateTimeFormatter;
import java.util.Locale;
import org.junit.jupiter.api.BeforeEach;
import org.junit.jupiter.api.Test;
import org.springframework.beans.factory.annotation.Autowired;
import org.springframework.context.ApplicationContext;
import org.springframework.transaction.annotation.Transactional;
import towerledger.PageCases;
import towerledger.account.Viewer;
import towerledger.ledger.InventedPortfolio;

/**
 * On the first days of a month one system has a row for it and all the others do not. Each test is
 * one transaction, so that no other test finds a month under way.
 */
@Transactional
abstract class MonthUnderWayCases extends PageCases {

  private static final YearMonth NOW = YearMonth.now(ZoneOffset.UTC);
  private static final YearMonth OVER = NOW.minusMonths(1);
  private static final String READ = "UNDERWAY-T0";
  private static final String OTHER = "UNDERWAY-T1";

  @Autowired ApplicationContext context;

  private Viewer customer;

  @BeforeEach
  void oneSystemOfFourHasBeenReadThisMonth() {
    var portfolio = new InventedPortfolio(context, "UNDERWAY-");
    portfolio.write(4, NOW.minusMonths(3), NOW);
    change("DELETE FROM ledger_month WHERE month_start = ? AND system_id <> ", NOW);
    change("UPDATE ledger_month SET status = 'open' WHERE month_start = ? AND system_id = ", NOW);
    change(
        "UPDATE ledger_month SET evaporation_credit_amount = NULL WHERE month_start = ?"
            + " AND system_id <> ",
        OVER);
    change(
        "UPDATE ledger_month SET evaporation_credit_amount = NULL WHERE month_start = ?"
            + " AND system_id = ",
        OVER);
    portfolio.sum();
    customer = signedIn.customer("reader@underway.test", "UNDERWAY-C0");
  }

  private void change(String sql, YearMonth month) {
    jdbc.sql(
            sql
                + "(SELECT id FROM site_system WHERE code = ?) AND customer_id ="
                + " (SELECT id FROM account_customer WHERE code = 'UNDERWAY-C0')")
        .params(month.atDay(1), READ)
        .update();
  }

  @Test
  void theReviewBeginsWithTheMonthThatIsOver() throws Exception {
    String page = open("/?search=underway-t");

    assertThat(heading(page)).contains(name(OVER));
    assertThat(page).contains("1 to 4 of 4").contains("month=" + NOW);
    assertThat(open("/?search=underway-t&month=" + NOW))
        .contains("1 to 1 of 1")
        .contains("/systems/" + READ)
        .doesNotContain("/systems/" + OTHER);
  }

  @Test
  void aCreditThatCannotBeWorkedOutIsNotNought() throws Exception {
    String page = open("/?search=underway-t");

    assertThat(group("data-heading=\"Sewer credit unclaimed\">([^<]*)<", page))
        .isEqualTo("not known");
  }

  @Test
  void theCustomersPagesBeginWithTheMonthThatIsOver() throws Exception {
    String page = open("/portal", customer);

    assertThat(heading(page)).contains(name(OVER));
    assertThat(page)
        .contains("/portal/systems/" + READ)
        .contains("/portal/systems/" + OTHER)
        .contains("/portal?month=" + NOW);
    assertThat(open("/portal?month=" + NOW, customer))
        .contains("/portal/systems/" + READ)
        .doesNotContain("/portal/systems/" + OTHER);
    assertThat(heading(open("/portal/systems/" + READ, customer))).contains(name(OVER));
    assertThat(heading(open("/portal/systems/" + OTHER, customer))).contains(name(OVER));
  }

  @Test
  void aSystemsPageBeginsWithItsMonthThatIsOverAndLeadsOnToTheOneUnderWay() throws Exception {
    String page = open("/systems/" + READ);

    assertThat(heading(page)).contains(name(OVER));
    assertThat(page).contains("/systems/" + READ + "?month=" + NOW);
    assertThat(open("/systems/" + OTHER)).doesNotContain("/systems/" + OTHER + "?month=" + NOW);
    assertThat(heading(open("/systems/" + OTHER))).contains(name(OVER));
  }

  @Test
  void whereThereIsOnlyTheMonthUnderWayItIsTheOneShown() throws Exception {
    jdbc.sql(
            """
            DELETE FROM ledger_month WHERE month_start < ? AND customer_id =
              (SELECT id FROM account_customer WHERE code = 'UNDERWAY-C0')""")
        .param(NOW.atDay(1))
        .update();

    assertThat(heading(open("/systems/" + READ))).contains(name(NOW));
    assertThat(heading(open("/portal/systems/" + READ, customer))).contains(name(NOW));
    assertThat(heading(open("/portal", customer))).contains(name(NOW));
  }

  /** At a site west of Greenwich the month is still open when it is over by UTC. */
  @Test
  void aSystemWhoseMonthIsStillOpenBeginsWithTheOneBefore() throws Exception {
    change("UPDATE ledger_month SET status = 'open' WHERE month_start = ? AND system_id = ", OVER);

    assertThat(heading(open("/systems/" + READ))).contains(name(OVER.minusMonths(1)));
    assertThat(heading(open("/portal/systems/" + READ, customer)))
        .contains(name(OVER.minusMonths(1)));
    assertThat(heading(open("/systems/" + OTHER))).contains(name(OVER));
  }

  private static String heading(String page) {
    return group("(?s)<h1[^>]*>(.*?)</h1>", page);
  }

  private static String name(YearMonth month) {
    return month.format(DateTimeFormatter.ofPattern("LLLL yyyy", Locale.US));
  }
}
