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
import org.springframework.transaction.support.TransactionTemplate;
import towerledger.account.ChangeHistory;
import towerledger.job.Jobs;
import towerledger.site.CoolingSystem;
import towerledger.site.Sites;

/**
 * Months are led on by the calendar of the site, and never past facts that wait to be reckoned.
 * Each test is one transaction, so that the running application's own jobs see nothing of it.
 */
@Transactional
abstract class MonthEndsCases {

  private static final YearMonth MARCH = YearMonth.of(2019, 3);

  @Autowired Sites sites;
  @Autowired JdbcClient jdbc;
  @Autowired TransactionTemplate transaction;
  @Autowired StaleSystems stale;
  @Autowired Jobs jobs;
  @Autowired ChangeHistory history;
  @Autowired Revisions revisions;
  @Autowired Ledger ledger;

  private CoolingSystem system;

  @BeforeEach
  void aTowerInPhoenixWithAnOpenMonth() {
    system = LedgerRows.tower(jdbc, sites, "ends-" + System.nanoTime(), "America/Phoenix");
    settle();
    transaction.executeWithoutResult(
        status ->
            revisions.append(
                List.of(LedgerRows.row(system, MARCH, LedgerStatus.OPEN, "a", "1", 1000)),
                Map.of(),
                "first",
                false));
  }

  @Test
  void aMonthTurnsProvisionalAtItsEndInTheZoneOfTheSite() {
    at("2019-04-01T06:59:59Z").leadOn();
    assertThat(status()).isEqualTo(LedgerStatus.OPEN);

    at("2019-04-01T07:00:00Z").leadOn();

    assertThat(status()).isEqualTo(LedgerStatus.PROVISIONAL);
    assertThat(stale.isStale(system.siteId())).as("reckoned once more, being whole").isTrue();
  }

  @Test
  void aMonthClosesTenDaysLaterButNotWhileFactsWait() {
    at("2019-04-01T07:00:00Z").leadOn();
    at("2019-04-11T07:00:00Z").leadOn();
    assertThat(status()).as("facts wait").isEqualTo(LedgerStatus.PROVISIONAL);

    settle();
    at("2019-04-11T06:59:59Z").leadOn();
    assertThat(status()).as("not yet ten days").isEqualTo(LedgerStatus.PROVISIONAL);
    at("2019-04-11T07:00:00Z").leadOn();

    assertThat(status()).isEqualTo(LedgerStatus.CLOSED);
    assertThat(ledger.listRevisions(system, MARCH)).as("closing reckons nothing").hasSize(1);
  }

  @Test
  void theOfficeMayCloseAMonthEarlierButNoneThatIsNotOver() {
    MonthEnds ends = at("2019-04-02T12:00:00Z");
    assertThat(ends.close(MARCH, LedgerRows.ACTOR).closed()).as("still open").isZero();
    ends.leadOn();
    assertThat(ends.close(MARCH, LedgerRows.ACTOR)).isEqualTo(new MonthEnds.Closing(0, 1));
    settle();

    assertThat(ends.close(MARCH, LedgerRows.ACTOR)).isEqualTo(new MonthEnds.Closing(1, 0));
    assertThat(status()).isEqualTo(LedgerStatus.CLOSED);
  }

  private void settle() {
    jdbc.sql("DELETE FROM ledger_stale WHERE site_id = :site")
        .param("site", system.siteId())
        .update();
  }

  private LedgerStatus status() {
    return ledger.find(system, MARCH).orElseThrow().status();
  }

  private MonthEnds at(String instant) {
    return new MonthEnds(
        jdbc,
        transaction,
        stale,
        jobs,
        history,
        Clock.fixed(Instant.parse(instant), ZoneOffset.UTC));
  }
}
