package towerledger.report;

import com.github.kagkarlsson.scheduler.SchedulerClient;
import java.lang.management.ManagementFactory;
import java.time.Clock;
import java.time.Instant;
import java.time.YearMonth;
import java.time.ZoneId;
import java.util.ArrayList;
import java.util.List;
import org.springframework.boot.builder.SpringApplicationBuilder;
import org.springframework.jdbc.core.simple.JdbcClient;
import towerledger.TowerLedgerApplication;
import towerledger.account.UnitPreference;
import towerledger.ledger.InventedMonths;
import towerledger.ledger.InventedMonths.Kind;
import towerledger.report.delivery.ScriptedRelay;

/**
 * Measures reports from due to handed over: each of five towers on two sites with thirteen months,
 * written, rendered, stored and given to a relay on this machine. The number of reports is the
 * first argument, a JDBC address the second (an H2 in memory without it). Heap and processors are
 * the caller's to set; see docs/performance.md.
 */
public final class ReportSpeed {

  private ReportSpeed() {}

  public static void main(String[] args) throws Exception {
    int reports = Integer.parseInt(args[0]);
    String url = args.length > 1 ? args[1] : "jdbc:h2:mem:speed;CASE_INSENSITIVE_IDENTIFIERS=TRUE";
    try (var relay = new ScriptedRelay();
        var context =
            new SpringApplicationBuilder(TowerLedgerApplication.class)
                .run(
                    "--spring.datasource.url=" + url,
                    "--server.port=0",
                    "--spring.mail.host=127.0.0.1",
                    "--spring.mail.port=" + relay.port(),
                    "--TOWERLEDGER_MAIL_FROM=reports@speed.example",
                    "--TOWERLEDGER_MAIL_REQUIRE_TLS=false",
                    "--TOWERLEDGER_ADMIN_EMAIL=speed@ledger.example",
                    "--TOWERLEDGER_ADMIN_PASSWORD=a drill at the tower 4711")) {
      JdbcClient jdbc = context.getBean(JdbcClient.class);
      List<Long> customers = new ArrayList<>();
      YearMonth month = null;
      for (int i = 0; i < reports; i++) {
        var months =
            new InventedMonths(
                context, "SPEED-" + i, "Customer " + i, "Zoë", "zoe@c%d.example".formatted(i));
        ReportPlan plan =
            new ReportPlan(
                months.customerId(),
                true,
                1,
                0,
                ZoneId.of("America/Chicago"),
                "en",
                UnitPreference.US,
                false,
                false,
                null,
                null,
                Instant.EPOCH);
        month = plan.newestDue(Clock.systemUTC().instant());
        months.history(month);
        months.write(
            month, i % 3 == 0 ? Kind.BAD : Kind.GOOD, InventedMonths.instant(month, 28), "1");
        jdbc.sql(
                """
                INSERT INTO report_plan (customer_id, active, day_of_month, hour_of_day, time_zone,
                  language, units, only_notable, held, active_since)
                VALUES (?, TRUE, 1, 0, 'America/Chicago', 'en', 'US', FALSE, FALSE,
                  TIMESTAMP WITH TIME ZONE '2099-01-01 00:00:00+00:00')""")
            .param(months.customerId())
            .update();
        customers.add(months.customerId());
      }
      // the months are invented; nothing is left to be reckoned that their reports would wait for
      jdbc.sql("DELETE FROM ledger_stale").update();
      System.out.printf("%d customers are written; the clock starts%n", reports);
      var machine =
          (com.sun.management.OperatingSystemMXBean) ManagementFactory.getOperatingSystemMXBean();
      long begun = System.nanoTime();
      long processorBegun = machine.getProcessCpuTime();
      SchedulerClient scheduler = context.getBean(SchedulerClient.class);
      Instant now = Clock.systemUTC().instant();
      for (long customer : customers) {
        scheduler.scheduleIfNotExists(
            ReportSchedule.PREPARE.instance(customer + ":" + month).build(), now);
      }
      while (accepted(jdbc) < reports) {
        Thread.sleep(200);
      }
      double seconds = (System.nanoTime() - begun) / 1e9;
      double processorSeconds = (machine.getProcessCpuTime() - processorBegun) / 1e9;
      Runtime runtime = Runtime.getRuntime();
      System.out.printf(
          "MEASURED %d reports handed over in %.1f s with %.1f s of processor time, %.0f ms each; heap at most %d MB, processors %d, taken by the relay %d%n",
          reports,
          seconds,
          processorSeconds,
          processorSeconds * 1000 / reports,
          runtime.maxMemory() >> 20,
          runtime.availableProcessors(),
          relay.taken().size());
    }
  }

  private static long accepted(JdbcClient jdbc) {
    return jdbc.sql("SELECT COUNT(*) FROM report_mail WHERE status = 'accepted'")
        .query(Long.class)
        .single();
  }
}
