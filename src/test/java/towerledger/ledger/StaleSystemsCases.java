package towerledger.ledger;

import static org.assertj.core.api.Assertions.assertThat;

import java.time.Clock;
import java.time.LocalDate;
import java.time.YearMonth;
import java.util.Collection;
import java.util.List;
import java.util.Set;
import java.util.concurrent.ConcurrentHashMap;
import org.junit.jupiter.api.BeforeEach;
import org.junit.jupiter.api.Test;
import org.springframework.beans.factory.annotation.Autowired;
import org.springframework.jdbc.core.simple.JdbcClient;
import org.springframework.transaction.support.TransactionTemplate;
import towerledger.account.Actor;
import towerledger.account.EmptyValues;
import towerledger.site.DatedSettings;
import towerledger.site.SettingName;
import towerledger.site.Sites;
import towerledger.weather.WeatherRecords;

/** Changed facts leave a mark until their months are reckoned, and a mark only ever widens. */
abstract class StaleSystemsCases {

  private static final Actor ACTOR = Actor.system("test");

  @Autowired StaleSystems stale;
  @Autowired Sites sites;
  @Autowired DatedSettings settings;
  @Autowired WeatherRecords weather;
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

    settings.put(
        ACTOR,
        system,
        YearMonth.of(2026, 3).atDay(10),
        SettingName.TARGET_CYCLES,
        SettingName.TARGET_CYCLES.stored("target_cycles", "4." + System.nanoTime()),
        null,
        EmptyValues.KEEP);

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

  @Test
  void aSiteThatCannotBeReckonedCostsItsNeighboursNothing() {
    long site = 900_000_000;
    long broken = site + StaleSystems.SLOTS;
    for (int i = 0; i < 6; i++) {
      markBeside(site + i * StaleSystems.SLOTS, i + 1, LocalDate.of(2026, 3, 1), "book imported");
    }
    Set<Long> reckoned = ConcurrentHashMap.newKeySet();
    var run =
        new ReckoningRun(
            stale,
            breakingAt(broken, reckoned),
            weather,
            transaction,
            Clock.systemUTC(),
            false,
            (percent, message) -> {});

    run.work();

    assertThat(run.failures()).isEqualTo(1);
    assertThat(reckoned).hasSize(5).doesNotContain(broken);
    assertThat(jdbc.sql("SELECT site_id FROM ledger_stale").query(Long.class).list())
        .containsExactly(broken);
    jdbc.sql("DELETE FROM ledger_stale").update();
  }

  /** Reckons nothing, and fails wherever one site is among those to be reckoned. */
  private static SiteReckoning breakingAt(long broken, Set<Long> reckoned) {
    return new SiteReckoning(null, null, null, null, null, null, null, null, Clock.systemUTC()) {
      @Override
      int reckon(
          Collection<Long> sites,
          YearMonth first,
          String reason,
          boolean upgradeOrdered,
          WeatherRecords.Reading stations) {
        if (sites.contains(broken)) {
          throw new IllegalStateException("site %d breaks by intention".formatted(broken));
        }
        reckoned.addAll(sites);
        return sites.size();
      }
    };
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
