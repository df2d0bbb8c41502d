package towerledger.ledger;

import java.lang.management.ManagementFactory;
import java.math.BigDecimal;
import java.time.Clock;
import java.time.Duration;
import java.time.Instant;
import java.time.OffsetDateTime;
import java.time.YearMonth;
import java.time.ZoneOffset;
import java.util.Arrays;
import java.util.Optional;
import java.util.concurrent.atomic.AtomicLong;
import javax.sql.DataSource;
import org.springframework.boot.builder.SpringApplicationBuilder;
import org.springframework.context.ConfigurableApplicationContext;
import org.springframework.jdbc.core.simple.JdbcClient;
import towerledger.Postgres;
import towerledger.TowerLedgerApplication;
import towerledger.account.Actor;
import towerledger.job.Job;
import towerledger.job.JobStatus;
import towerledger.job.Jobs;
import towerledger.meter.ReadingEntry;
import towerledger.meter.RegisterReading;
import towerledger.simulation.portfolio.LargePortfolio;
import towerledger.simulation.portfolio.PortfolioPlan;
import towerledger.site.Meter;
import towerledger.site.Sites;

/**
 * Measures the way from facts in PostgreSQL to rows of the ledger: an invented portfolio of twelve
 * months (a tenth of the systems with hourly heat and intervals, the rest with monthly evidence) is
 * reckoned by the job that an import starts, twice: from the program's cold start, and once more
 * with the ledger emptied; then readings are corrected, and the time until their month is restated
 * is taken. The number of systems is the first argument. The database is an embedded one, on the
 * same processors. Heap and processors are the caller's to set; see docs/performance.md.
 */
public final class ReckoningSpeed {

  private static final int MONTHS = 12;
  private static final int CORRECTIONS = 9;

  /** How often the job is asked whether it is done; asking takes from the same two processors. */
  private static final Duration ASKING_FOR_ALL = Duration.ofMillis(100);

  private static final Duration ASKING_FOR_ONE = Duration.ofMillis(10);
  private static final Actor ACTOR = Actor.system("speed");

  private ReckoningSpeed() {}

  public static void main(String[] args) throws Exception {
    int systems = Integer.parseInt(args[0]);
    String url = Postgres.newDatabase("reckoning");
    try (var context =
        new SpringApplicationBuilder(TowerLedgerApplication.class)
            .run(
                "--spring.datasource.url=" + url,
                "--server.port=0",
                "--TOWERLEDGER_ADMIN_EMAIL=speed@ledger.example",
                "--TOWERLEDGER_ADMIN_PASSWORD=a drill at the tower 4711")) {
      JdbcClient jdbc = context.getBean(JdbcClient.class);
      YearMonth first = YearMonth.now(ZoneOffset.UTC).minusMonths(MONTHS);
      long begun = System.nanoTime();
      LargePortfolio.writeRows(
          new PortfolioPlan(systems, first, MONTHS, 4711), context.getBean(DataSource.class));
      analyzeWhatWasWritten(jdbc);
      System.out.printf("%d systems are written in %.0f s%n", systems, since(begun));
      all(context, systems, "cold");
      emptyTheLedger(jdbc);
      all(context, systems, "again, warm,");
      one(context, first.plusMonths(MONTHS - 2));
    }
  }

  /**
   * What the database does by itself soon after. It never does so to empty tables: plans made after
   * an empty ledger had been analysed would read all of it for each key, however large it grows.
   */
  private static void analyzeWhatWasWritten(JdbcClient jdbc) {
    jdbc.sql("SELECT relname FROM pg_stat_user_tables WHERE n_tup_ins > 0")
        .query(String.class)
        .list()
        .forEach(table -> jdbc.sql("ANALYZE " + table).update());
  }

  /**
   * So that the same program, its classes compiled by now, writes all of it once more. The database
   * lets nobody remove a line of history; its owner here asks it not to watch.
   */
  private static void emptyTheLedger(JdbcClient jdbc) {
    jdbc.sql("ALTER TABLE ledger_revision DISABLE TRIGGER USER").update();
    jdbc.sql(
            """
            TRUNCATE ledger_revision, ledger_month, ledger_slot_month, ledger_site_year,
                finding_finding CASCADE""")
        .update();
    jdbc.sql("ALTER TABLE ledger_revision ENABLE TRIGGER USER").update();
  }

  private static void all(ConfigurableApplicationContext context, int systems, String how)
      throws Exception {
    JdbcClient jdbc = context.getBean(JdbcClient.class);
    jdbc.sql(
            """
            INSERT INTO ledger_stale (system_id, site_id, reason, marked_at)
            SELECT id, site_id, 'a book was imported', CURRENT_TIMESTAMP FROM site_system
            ORDER BY id""")
        .update();
    var machine =
        (com.sun.management.OperatingSystemMXBean) ManagementFactory.getOperatingSystemMXBean();
    var peak = new AtomicLong();
    Thread watch = watch(peak);
    long begun = System.nanoTime();
    long processorBegun = machine.getProcessCpuTime();
    run(context, ASKING_FOR_ALL);
    double seconds = since(begun);
    double processorSeconds = (machine.getProcessCpuTime() - processorBegun) / 1e9;
    watch.interrupt();
    Runtime runtime = Runtime.getRuntime();
    System.out.printf(
        "MEASURED %s %d systems, %d months written, in %.1f s: %.1f ms a system by the clock, %.1f ms"
            + " of this process's processor time; heap %d MB used at most of %d MB, processors %d%n",
        how,
        systems,
        jdbc.sql("SELECT COUNT(*) FROM ledger_revision").query(Long.class).single(),
        seconds,
        1000 * seconds / systems,
        1000 * processorSeconds / systems,
        peak.get() >> 20,
        runtime.maxMemory() >> 20,
        runtime.availableProcessors());
  }

  /** Corrects a reading of some systems without a logger, each until its months are restated. */
  private static void one(ConfigurableApplicationContext context, YearMonth month)
      throws Exception {
    JdbcClient jdbc = context.getBean(JdbcClient.class);
    Sites sites = context.getBean(Sites.class);
    double[] seconds = new double[CORRECTIONS];
    for (int i = 0; i < CORRECTIONS; i++) {
      // every tenth system has a logger, which a reading does not overrule
      Meter meter = sites.getMeter("S%05d-MU".formatted(10 * i));
      var last =
          jdbc.sql(
                  """
                  SELECT read_at, register FROM meter_register_reading
                  WHERE meter_id = :meter AND read_at < :end ORDER BY read_at DESC LIMIT 1""")
              .param("meter", meter.id())
              .param("end", month.plusMonths(1).atDay(1).atStartOfDay().atOffset(ZoneOffset.UTC))
              .query(
                  (row, number) ->
                      RegisterReading.actual(
                          row.getObject(1, OffsetDateTime.class).toInstant(),
                          row.getBigDecimal(2).add(BigDecimal.valueOf(900))))
              .single();
      long before = restated(jdbc);
      long begun = System.nanoTime();
      context.getBean(ReadingEntry.class).enter(ACTOR, meter, last, "corrected", Optional.empty());
      run(context, ASKING_FOR_ONE);
      seconds[i] = since(begun);
      if (restated(jdbc) == before) {
        throw new IllegalStateException(
            "no month of meter %s was restated".formatted(meter.code()));
      }
    }
    Arrays.sort(seconds);
    System.out.printf(
        "MEASURED one corrected reading to its restated months: %.2f s in the median of %d, %.2f s"
            + " at worst%n",
        seconds[CORRECTIONS / 2], CORRECTIONS, seconds[CORRECTIONS - 1]);
  }

  private static long restated(JdbcClient jdbc) {
    return jdbc.sql("SELECT COUNT(*) FROM ledger_revision WHERE revision > 1")
        .query(Long.class)
        .single();
  }

  private static void run(ConfigurableApplicationContext context, Duration betweenQuestions)
      throws InterruptedException {
    Jobs jobs = context.getBean(Jobs.class);
    String id = jobs.submit(Reconciliations.KIND, null, null, ACTOR.name());
    Instant told = Clock.systemUTC().instant();
    while (true) {
      Job job = jobs.find(id).orElseThrow();
      if (job.status() == JobStatus.DONE) {
        return;
      }
      if (job.status() == JobStatus.FAILED) {
        throw new IllegalStateException(job.message());
      }
      if (Duration.between(told, Clock.systemUTC().instant()).toSeconds() >= 20) {
        told = Clock.systemUTC().instant();
        System.out.println(job.progress() + " %: " + job.message());
      }
      Thread.sleep(betweenQuestions.toMillis());
    }
  }

  private static Thread watch(AtomicLong peak) {
    Thread thread =
        new Thread(
            () -> {
              Runtime runtime = Runtime.getRuntime();
              while (!Thread.currentThread().isInterrupted()) {
                long used = runtime.totalMemory() - runtime.freeMemory();
                peak.accumulateAndGet(used, Math::max);
                try {
                  Thread.sleep(50);
                } catch (InterruptedException e) {
                  Thread.currentThread().interrupt();
                }
              }
            });
    thread.setDaemon(true);
    thread.start();
    return thread;
  }

  private static double since(long nanos) {
    return (System.nanoTime() - nanos) / 1e9;
  }
}
