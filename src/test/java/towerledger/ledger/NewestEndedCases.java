package towerledger.ledger;

import static org.assertj.core.api.Assertions.assertThat;

import java.time.Clock;
import java.time.Instant;
import java.time.YearMonth;
import java.time.ZoneOffset;
import java.util.List;
import java.util.Map;
import org.junit.jupiter.api.BeforeEach;
import org.junit.jupiter.api.Test;
import org.springframework.beans.factory.annotation.Autowired;
import org.springframework.jdbc.core.simple.JdbcClient;
import org.springframework.transaction.annotation.Transactional;
import towerledger.SignedIn;
import towerledger.account.Viewer;
import towerledger.query.Questions;
import towerledger.site.CoolingSystem;
import towerledger.site.SiteAccess;
import towerledger.site.Sites;

/** Which month a page begins with while one month turns into the next in one zone after another. */
@Transactional
abstract class NewestEndedCases {

  private static final YearMonth MARCH = YearMonth.of(2019, 3);
  private static final YearMonth APRIL = YearMonth.of(2019, 4);

  @Autowired Sites sites;
  @Autowired JdbcClient jdbc;
  @Autowired Questions questions;
  @Autowired SiteAccess access;
  @Autowired WorkingCodec codec;
  @Autowired Revisions revisions;
  @Autowired SignedIn signedIn;

  private CoolingSystem system;
  private Viewer customer;

  @BeforeEach
  void aTowerReadInMarchAndApril() {
    String prefix = "newest-" + System.nanoTime();
    system = LedgerRows.tower(jdbc, sites, prefix, "America/Phoenix");
    customer = signedIn.customer(prefix + "@newest.test", prefix + "-c");
    write(MARCH, LedgerStatus.OPEN);
  }

  private void write(YearMonth month, LedgerStatus status) {
    revisions.append(
        List.of(LedgerRows.row(system, month, status, "a", "1", 1000)), Map.of(), "first", false);
  }

  private void ended(YearMonth month) {
    jdbc.sql(
            "UPDATE ledger_month SET status = 'provisional' WHERE system_id = ? AND month_start = ?")
        .params(system.id(), month.atDay(1))
        .update();
  }

  private YearMonth at(String instant) {
    Clock clock = Clock.fixed(Instant.parse(instant), ZoneOffset.UTC);
    return new Ledger(jdbc, questions, access, codec, clock)
        .findNewestEnded(customer)
        .orElseThrow();
  }

  @Test
  void onTheLastEveningInPhoenixTheMonthIsNotOverThoughItIsByUtc() {
    write(MARCH.minusMonths(1), LedgerStatus.CLOSED);
    assertThat(at("2019-04-01T06:30:00Z")).isEqualTo(MARCH.minusMonths(1));

    ended(MARCH);

    assertThat(at("2019-04-01T07:30:00Z")).isEqualTo(MARCH);
  }

  @Test
  void aReadingOfTheNewMonthDoesNotHideTheMonthThatIsOver() {
    ended(MARCH);
    write(APRIL, LedgerStatus.OPEN);

    assertThat(at("2019-04-01T08:00:00Z")).isEqualTo(MARCH);
    assertThat(at("2019-04-20T08:00:00Z")).isEqualTo(MARCH);
  }

  @Test
  void theOnlyMonthIsTheOneShownOverOrNot() {
    assertThat(at("2019-03-20T08:00:00Z")).isEqualTo(MARCH);
    assertThat(at("2019-04-01T06:30:00Z")).isEqualTo(MARCH);
    assertThat(at("2019-08-01T06:30:00Z")).isEqualTo(MARCH);
  }
}
