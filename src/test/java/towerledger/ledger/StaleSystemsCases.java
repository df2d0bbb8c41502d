package towerledger.ledger;

import static org.assertj.core.api.Assertions.assertThat;

import java.time.LocalDate;
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

  @Test
  void sitesOfASlotThatWaitForTheSameAreTakenTogether() {
    long site = 900_000_000;
    LocalDate march = LocalDate.of(2026, 3, 1);
    markBeside(site, 1, march, "book imported");
    markBeside(site + StaleSystems.SLOTS, 2, march, "book imported");
    markBeside(site + 2 * StaleSystems.SLOTS, 3, march.plusMonths(1), "book imported");
    markBeside(site + 3 * StaleSystems.SLOTS, 4, march, "reading corrected");
    markBeside(site + 1, 5, march, "book imported");

    assertThat(together(site, List.of())).containsExactly(1L, 2L);
    assertThat(together(site, List.of(site + StaleSystems.SLOTS))).containsExactly(1L);
    assertThat(together(site + 4 * StaleSystems.SLOTS, List.of())).isEmpty();

    jdbc.sql("DELETE FROM ledger_stale").update();
  }

  private List<Long> together(long site, List<Long> except) {
    List<StaleSystems.Stale> marks =
        transaction.execute(status -> stale.claimTogether(site, except));
    return marks == null ? List.of() : marks.stream().map(StaleSystems.Stale::systemId).toList();
  }

  private void markBeside(long site, long system, LocalDate first, String reason) {
    jdbc.sql(
            """
            INSERT INTO ledger_stale (system_id, site_id, first_month, reason, marked_at)
            VALUES (?, ?, ?, ?, CURRENT_TIMESTAMP)""")
        .params(system, site, first, reason)
        .update();
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
