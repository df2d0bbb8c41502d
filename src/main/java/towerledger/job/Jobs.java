package towerledger.job;

import com.github.kagkarlsson.scheduler.Scheduler;
import com.github.kagkarlsson.scheduler.SchedulerClient;
import java.sql.ResultSet;
import java.sql.SQLException;
import java.time.Clock;
import java.time.OffsetDateTime;
import java.time.ZoneOffset;
import java.util.List;
import java.util.Locale;
import java.util.Optional;
import java.util.UUID;
import org.jspecify.annotations.Nullable;
import org.springframework.beans.factory.ObjectProvider;
import org.springframework.beans.factory.annotation.Value;
import org.springframework.jdbc.core.simple.JdbcClient;
import org.springframework.stereotype.Service;
import org.springframework.transaction.annotation.Propagation;
import org.springframework.transaction.annotation.Transactional;
import org.springframework.transaction.support.TransactionSynchronization;
import org.springframework.transaction.support.TransactionSynchronizationManager;

/** Queues work in the database and tells how it stands. */
@Service
public class Jobs {

  private static final String COLUMNS =
      "id, kind, status, progress, message, payload, customer_id, actor, created_at";

  private final JdbcClient jdbc;
  private final ObjectProvider<SchedulerClient> scheduler;
  private final Clock clock;
  private final boolean atOnce;

  Jobs(
      JdbcClient jdbc,
      ObjectProvider<SchedulerClient> scheduler,
      Clock clock,
      @Value("${db-scheduler.immediate-execution-enabled}") boolean atOnce) {
    this.jdbc = jdbc;
    this.scheduler = scheduler;
    this.clock = clock;
    this.atOnce = atOnce;
  }

  /**
   * Queues a job; it starts once the surrounding transaction has committed.
   *
   * @param kind a {@link JobWork#kind()}
   * @param payload what to work on, in the kind's own form
   * @param customerId whose it is, when it is one customer's
   * @param actor who asks for it
   * @return its id
   */
  @Transactional
  public String submit(
      String kind, @Nullable String payload, @Nullable Long customerId, String actor) {
    String id = UUID.randomUUID().toString();
    jdbc.sql(
            """
            INSERT INTO job_run (id, kind, status, payload, customer_id, actor, created_at)
            VALUES (:id, :kind, 'queued', :payload, :customer, :actor, :at)""")
        .param("id", id)
        .param("kind", kind)
        .param("payload", payload)
        .param("customer", customerId)
        .param("actor", actor)
        .param("at", now())
        .update();
    SchedulerClient client = scheduler.getObject();
    client.scheduleIfNotExists(JobRunner.TASK.instance(id).build(), clock.instant());
    if (atOnce && client instanceof Scheduler here) {
      startAfterCommit(here);
    }
    return id;
  }

  /** Before the commit nobody sees the job, and the next look at the queue is seconds away. */
  private static void startAfterCommit(Scheduler scheduler) {
    TransactionSynchronizationManager.registerSynchronization(
        new TransactionSynchronization() {
          @Override
          public void afterCommit() {
            scheduler.triggerCheckForDueExecutions();
          }
        });
  }

  /**
   * Writes down work that was found finished before it began, so that whoever asks gets an answer.
   */
  @Transactional
  public String recordDone(String kind, String message, @Nullable Long customerId, String actor) {
    String id = UUID.randomUUID().toString();
    jdbc.sql(
            """
            INSERT INTO job_run (id, kind, status, progress, message, customer_id, actor,
              created_at, started_at, finished_at)
            VALUES (:id, :kind, 'done', 100, :message, :customer, :actor, :at, :at, :at)""")
        .param("id", id)
        .param("kind", kind)
        .param("message", message)
        .param("customer", customerId)
        .param("actor", actor)
        .param("at", now())
        .update();
    return id;
  }

  /** The job with an id. */
  @Transactional(readOnly = true)
  public Optional<Job> find(String id) {
    return jdbc.sql("SELECT " + COLUMNS + " FROM job_run WHERE id = :id")
        .param("id", id)
        .query(Jobs::job)
        .optional();
  }

  /** The newest job of a kind that has not ended. */
  @Transactional(readOnly = true)
  public Optional<Job> findUnfinished(String kind) {
    return jdbc.sql(
            "SELECT "
                + COLUMNS
                + " FROM job_run WHERE kind = :kind AND status IN ('queued', 'running')"
                + " ORDER BY created_at DESC LIMIT 1")
        .param("kind", kind)
        .query(Jobs::job)
        .optional();
  }

  /** The newest jobs, newest first. */
  @Transactional(readOnly = true)
  public List<Job> listRecent(int limit) {
    return jdbc.sql("SELECT " + COLUMNS + " FROM job_run ORDER BY created_at DESC LIMIT :limit")
        .param("limit", limit)
        .query(Jobs::job)
        .list();
  }

  @Transactional(propagation = Propagation.REQUIRES_NEW)
  void begin(String id) {
    jdbc.sql("UPDATE job_run SET status = 'running', started_at = :at WHERE id = :id")
        .param("id", id)
        .param("at", now())
        .update();
  }

  @Transactional(propagation = Propagation.REQUIRES_NEW)
  void report(String id, int percent, String message) {
    jdbc.sql("UPDATE job_run SET progress = :percent, message = :message WHERE id = :id")
        .param("id", id)
        .param("percent", percent)
        .param("message", shortened(message))
        .update();
  }

  @Transactional(propagation = Propagation.REQUIRES_NEW)
  void end(String id, JobStatus status, String message) {
    jdbc.sql(
            """
            UPDATE job_run SET status = :status, message = :message, finished_at = :at,
              progress = CASE WHEN :status = 'done' THEN 100 ELSE progress END
            WHERE id = :id""")
        .param("id", id)
        .param("status", status.code())
        .param("message", shortened(message))
        .param("at", now())
        .update();
  }

  private static String shortened(String message) {
    return message.length() <= 2000 ? message : message.substring(0, 1999) + "…";
  }

  private OffsetDateTime now() {
    return OffsetDateTime.ofInstant(clock.instant(), ZoneOffset.UTC);
  }

  private static Job job(ResultSet row, int number) throws SQLException {
    return new Job(
        row.getString("id"),
        row.getString("kind"),
        JobStatus.valueOf(row.getString("status").toUpperCase(Locale.ROOT)),
        row.getInt("progress"),
        row.getString("message"),
        row.getString("payload"),
        row.getObject("customer_id", Long.class),
        row.getString("actor"),
        row.getObject("created_at", OffsetDateTime.class).toInstant());
  }
}
