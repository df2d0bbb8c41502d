package towerledger.report;

import static org.assertj.core.api.Assertions.assertThat;

import java.time.YearMonth;
import java.util.ArrayList;
import java.util.List;
import org.junit.jupiter.api.Tag;
import org.junit.jupiter.api.Test;
import org.springframework.boot.builder.SpringApplicationBuilder;
import org.springframework.jdbc.core.simple.JdbcClient;
import towerledger.TowerLedgerApplication;
import towerledger.account.Actor;
import towerledger.job.JobStatus;
import towerledger.job.Jobs;
import towerledger.ledger.InventedMonths;
import towerledger.ledger.InventedMonths.Kind;
import towerledger.ledger.Reconciliations;
import towerledger.report.delivery.ScriptedRelay;

/** A relay that hardly answers, mails for all threads there are, and work that must not wait. */
@Tag("drill")
class SlowRelayDrillIT {

  private static final YearMonth MONTH = YearMonth.of(2025, 10);
  private static final int CUSTOMERS = 12;

  @Test
  void holdsUpNoOtherWorkWhileTheRelayThinks() throws Exception {
    try (var relay = new ScriptedRelay();
        var context =
            new SpringApplicationBuilder(TowerLedgerApplication.class)
                .run(
                    "--spring.datasource.url=jdbc:h2:mem:slowrelay;CASE_INSENSITIVE_IDENTIFIERS=TRUE",
                    "--server.port=0",
                    "--spring.mail.host=127.0.0.1",
                    "--spring.mail.port=" + relay.port(),
                    "--TOWERLEDGER_MAIL_FROM=reports@slow.example",
                    "--TOWERLEDGER_MAIL_REQUIRE_TLS=false",
                    "--TOWERLEDGER_ADMIN_EMAIL=slow@ledger.example",
                    "--TOWERLEDGER_ADMIN_PASSWORD=a drill at the tower 4711")) {
      relay.pause(20_000);
      Reports reports = context.getBean(Reports.class);
      Actor office = new Actor("office@ledger.test", "test");
      List<ReportIssue> drafts = new ArrayList<>();
      for (int i = 0; i < CUSTOMERS; i++) {
        var months =
            new InventedMonths(context, "SLOW-" + i, "Slow", "Zoë", "zoe@s%d.example".formatted(i));
        months.write(MONTH, Kind.GOOD, InventedMonths.instant(MONTH.plusMonths(1), 11), "first");
        drafts.add(reports.prepare(months.customerId(), MONTH, office));
      }
      drafts.forEach(draft -> reports.approve(draft.id(), draft.digest(), office));
      Deliveries deliveries = context.getBean(Deliveries.class);
      awaitConnections(relay, 2);

      var reconciliations = context.getBean(Reconciliations.class);
      String job = reconciliations.order(List.of(), MONTH, MONTH, office);

      Jobs jobs = context.getBean(Jobs.class);
      long deadline = System.nanoTime() + 15_000_000_000L;
      while (!jobs.find(job).map(j -> j.status().isFinal()).orElse(false)
          && System.nanoTime() < deadline) {
        Thread.sleep(100);
      }
      assertThat(jobs.find(job).map(towerledger.job.Job::status)).contains(JobStatus.DONE);
      assertThat(deliveries.countWaiting())
          .as("the relay has not taken one mail yet")
          .isEqualTo(CUSTOMERS);
      assertThat(relay.connections()).as("mails under way at once").isEqualTo(2);
      assertThat(
              context
                  .getBean(JdbcClient.class)
                  .sql("SELECT COUNT(*) FROM scheduled_tasks WHERE task_name = 'report-mail'")
                  .query(Long.class)
                  .single())
          .as("mails wait apart from other work")
          .isZero();
    }
  }

  private static void awaitConnections(ScriptedRelay relay, int wanted)
      throws InterruptedException {
    for (int i = 0; i < 150 && relay.connections() < wanted; i++) {
      Thread.sleep(100);
    }
    assertThat(relay.connections()).isEqualTo(wanted);
  }
}
