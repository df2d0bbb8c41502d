package towerledger.ledger;

import static org.assertj.core.api.Assertions.assertThat;

import java.time.YearMonth;
import java.util.List;
import org.junit.jupiter.api.BeforeEach;
import org.junit.jupiter.api.Test;
import org.springframework.beans.factory.annotation.Autowired;
import org.springframework.jdbc.core.simple.JdbcClient;
import org.springframework.transaction.support.TransactionTemplate;
import towerledger.account.Actor;
import towerledger.site.SettingName;
import towerledger.site.Sites;

/** Changed facts leave a mark until their months are reckoned, and a mark only ever widens. */
abstract class StaleSystemsCases {

  private static final Actor ACTOR = Actor.system("test");

  @Autowired StaleSystems stale;
  @Autowired Sites sites;
  @Autowired JdbcClient jdbc;
  @Autowired TransactionTemplate transaction;

  @BeforeEach
  void aTowerOfItsOwn() {
    LedgerRows.tower(jdbc, sites, "stale", "UTC");
    jdbc.sql("DELETE FROM ledger_stale").update();
  }

  @Test
  void aSettingMarksItsSystemFromItsMonthOn() {
    var system = sites.getSystem("stale-t");

    sites.putSetting(
        ACTOR,
        system,
        YearMonth.of(2026, 3).atDay(10),
        SettingName.TARGET_CYCLES,
        SettingName.TARGET_CYCLES.stored("target_cycles", "4." + System.nanoTime()),
        null);

    assertThat(claim())
        .singleElement()
        .satisfies(
            mark -> {
              assertThat(mark.systemId()).isEqualTo(system.id());
              assertThat(mark.first()).isEqualTo(YearMonth.of(2026, 3));
              assertThat(mark.reason()).contains("target_cycles");
            });
  }

  @Test
  void aSiteIsReckonedByOneAtATimeAndMarksNeverWaitForIt() {
    long system = sites.getSystem("stale-t").id();
    stale.mark(system, YearMonth.of(2026, 5), YearMonth.of(2026, 5), "reading in May");

    transaction.executeWithoutResult(
        status -> {
          List<StaleSystems.Stale> mine = claimFirst();
          assertThat(mine).hasSize(1);
          elsewhere(
              () -> {
                stale.mark(system, YearMonth.of(2026, 2), null, "reading in February");
                assertThat(claim()).isEmpty();
              });
          stale.settle(mine);
        });

    assertThat(claim())
        .singleElement()
        .satisfies(mark -> assertThat(mark.first()).isEqualTo(YearMonth.of(2026, 2)));
  }

  private static void elsewhere(Runnable work) {
    try {
      java.util.concurrent.CompletableFuture.runAsync(work)
          .get(20, java.util.concurrent.TimeUnit.SECONDS);
    } catch (Exception e) {
      throw new AssertionError("another node could not do its part", e);
    }
  }

  @Test
  void aMarkGoesWithTheTransactionThatSettledIt() {
    long system = sites.getSystem("stale-t").id();
    stale.mark(system, null, null, "anything");

    transaction.executeWithoutResult(
        status -> {
          stale.settle(claimFirst());
          status.setRollbackOnly();
        });
    assertThat(stale.count()).isEqualTo(1);

    transaction.executeWithoutResult(status -> stale.settle(claimFirst()));
    assertThat(stale.count()).isZero();
  }

  private List<StaleSystems.Stale> claim() {
    return transaction.execute(status -> claimFirst());
  }

  private List<StaleSystems.Stale> claimFirst() {
    return stale.listWaiting(List.of()).stream()
        .map(stale::claim)
        .filter(marks -> !marks.isEmpty())
        .findFirst()
        .orElse(List.of());
  }
}
