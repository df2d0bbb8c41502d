package towerledger.report;

import static org.assertj.core.api.Assertions.assertThat;

import com.icegreen.greenmail.util.GreenMail;
import com.icegreen.greenmail.util.ServerSetup;
import jakarta.mail.internet.MimeMessage;
import java.time.Clock;
import java.time.YearMonth;
import java.time.ZoneId;
import java.util.Map;
import java.util.Random;
import java.util.Set;
import java.util.TreeMap;
import java.util.TreeSet;
import org.junit.jupiter.api.Tag;
import org.junit.jupiter.api.Test;
import org.springframework.boot.builder.SpringApplicationBuilder;
import org.springframework.jdbc.core.simple.JdbcClient;
import towerledger.Postgres;
import towerledger.TowerLedgerApplication;
import towerledger.account.UnitPreference;
import towerledger.ledger.InventedMonths;
import towerledger.ledger.InventedMonths.Kind;

/**
 * Two nodes on one PostgreSQL write and send two hundred reports as they fall due, each to two
 * recipients, and one or the other is killed (SIGKILL) at random moments of the work: every
 * recipient gets the report at least once, nobody sees two names for one report, nothing is lost.
 */
@Tag("drill")
class KilledReportDrillIT {

  private static final int REPORTS = 200;
  private static final int ROUNDS = 8;
  private static final long SEED = 4711;
  private static final ZoneId ZONE = ZoneId.of("America/Chicago");

  @Test
  void losesNoReportAndSendsNoneUnderTwoNames() throws Exception {
    String database = Postgres.newDatabase("killed_reports");
    prepare(database);
    var jdbc = JdbcClient.create(Postgres.dataSource(database));
    var relay = new GreenMail(new ServerSetup(0, "127.0.0.1", ServerSetup.PROTOCOL_SMTP));
    relay.start();
    int port = relay.getSmtp().getPort();
    var random = new Random(SEED);
    ReportNode[] nodes = {ReportNode.start(database, port), ReportNode.start(database, port)};
    try {
      nodes[0].awaitStart();
      nodes[1].awaitStart();
      for (int round = 0; round < ROUNDS; round++) {
        fallDue(jdbc, round);
        Thread.sleep(300 + random.nextInt(4_000));
        int victim = random.nextInt(2);
        nodes[victim].kill();
        nodes[victim] = ReportNode.start(database, port);
        nodes[victim].awaitStart();
      }
      long deadline = System.nanoTime() + 600_000_000_000L;
      while (accepted(jdbc) < 2 * REPORTS) {
        assertThat(System.nanoTime())
            .as("%d of %d mails arrived in ten minutes", accepted(jdbc), 2 * REPORTS)
            .isLessThan(deadline);
        nudge(jdbc);
        Thread.sleep(2_000);
      }
    } finally {
      nodes[0].close();
      nodes[1].close();
    }

    Map<String, Set<String>> names = new TreeMap<>();
    int messages = 0;
    for (MimeMessage message : relay.getReceivedMessages()) {
      String recipient = message.getAllRecipients()[0].toString();
      assertThat(message.getAllRecipients()).hasSize(1);
      assertThat(message.getSubject())
          .as("a recipient gets their own customer's report")
          .contains("Customer " + recipient.replaceAll("\\D", "") + ":");
      names.computeIfAbsent(recipient, r -> new TreeSet<>()).add(message.getMessageID());
      messages++;
    }
    relay.stop();
    System.out.printf(
        "%d kills (seed %d); %d recipients, %d messages, %d of them sent again under their name%n",
        ROUNDS, SEED, names.size(), messages, messages - 2 * REPORTS);
    assertThat(names).as("every recipient got it").hasSize(2 * REPORTS);
    assertThat(names.values()).as("under one name").allMatch(set -> set.size() == 1);
    assertThat(count(jdbc, "SELECT COUNT(*) FROM report_issue")).isEqualTo(REPORTS);
    assertThat(count(jdbc, "SELECT COUNT(*) FROM report_mail")).isEqualTo(2 * REPORTS);
  }

  private static void prepare(String database) {
    try (var context =
        new SpringApplicationBuilder(TowerLedgerApplication.class)
            .run(
                "--spring.datasource.url=" + database,
                "--server.port=0",
                "--db-scheduler.polling-interval=1h",
                "--db-scheduler.immediate-execution-enabled=false",
                "--TOWERLEDGER_ADMIN_EMAIL=drill@ledger.example",
                "--TOWERLEDGER_ADMIN_PASSWORD=a drill at the tower 4711")) {
      var jdbc = context.getBean(JdbcClient.class);
      YearMonth month = null;
      for (int i = 0; i < REPORTS; i++) {
        var months =
            new InventedMonths(
                context,
                "KILL-" + i,
                "Customer " + i,
                "Zoë",
                "zoe@c%d.example;kurt@c%d.example".formatted(i, i));
        ReportPlan plan =
            new ReportPlan(
                months.customerId(),
                true,
                1,
                0,
                ZONE,
                "en",
                UnitPreference.US,
                false,
                false,
                null,
                null,
                java.time.Instant.EPOCH);
        month = plan.newestDue(Clock.systemUTC().instant());
        months.write(month, Kind.BAD, InventedMonths.instant(month, 28), "first");
        // once it is active, as if it had been all along
        jdbc.sql(
                """
                INSERT INTO report_plan (customer_id, active, day_of_month, hour_of_day, time_zone,
                  language, units, only_notable, held, active_since)
                VALUES (?, FALSE, 1, 0, 'America/Chicago', 'en', 'US', FALSE, FALSE,
                  TIMESTAMP WITH TIME ZONE '2000-01-01 00:00:00+00:00')""")
            .param(months.customerId())
            .update();
      }
      // the months are invented; nothing is left to be reckoned that their reports would wait for
      jdbc.sql("DELETE FROM ledger_stale").update();
    }
  }

  /** Lets a share of the reports fall due, and a node look for them at once. */
  private static void fallDue(JdbcClient jdbc, int round) {
    jdbc.sql(
            """
            UPDATE report_plan SET active = TRUE WHERE customer_id IN
              (SELECT id FROM account_customer WHERE code LIKE 'KILL-%' AND MOD(id, ?) = ?)""")
        .params(ROUNDS, round)
        .update();
    nudge(jdbc);
  }

  /** Lets a node look at once for what is due, rather than in a few minutes. */
  private static void nudge(JdbcClient jdbc) {
    jdbc.sql(
            """
            UPDATE scheduled_tasks SET execution_time = CURRENT_TIMESTAMP
            WHERE task_name = 'report-due' AND picked = FALSE""")
        .update();
  }

  private static long accepted(JdbcClient jdbc) {
    return count(jdbc, "SELECT COUNT(*) FROM report_mail WHERE status = 'accepted'");
  }

  private static long count(JdbcClient jdbc, String sql) {
    return jdbc.sql(sql).query(Long.class).single();
  }
}
