package towerledger.report.delivery;

import com.github.kagkarlsson.scheduler.Scheduler;
import com.github.kagkarlsson.scheduler.SchedulerName;
import com.github.kagkarlsson.scheduler.boot.config.DbSchedulerProperties;
import com.github.kagkarlsson.scheduler.task.helper.CustomTask;
import com.github.kagkarlsson.scheduler.task.helper.RecurringTask;
import java.time.Instant;
import java.util.List;
import java.util.function.Supplier;
import javax.sql.DataSource;
import org.springframework.context.SmartLifecycle;
import org.springframework.jdbc.datasource.TransactionAwareDataSourceProxy;

/**
 * Carries mails on few threads of their own, from a table of their own: a relay that takes half a
 * minute a mail holds up mails and nothing else. Any node may carry any mail.
 */
final class MailRounds implements SmartLifecycle {

  private static final String TABLE = "report_task";

  /** The table's column for who has picked a task holds this much. */
  private static final int LONGEST_NAME = 50;

  private final Supplier<Scheduler> made;
  private volatile Scheduler scheduler;
  private volatile boolean running;
  private boolean stopped;

  /**
   * @param like how often to look, and when a silent node counts as dead: as for all other work
   * @param threads mails under way at once, at most
   */
  MailRounds(
      DataSource database,
      DbSchedulerProperties like,
      int threads,
      CustomTask<Void> mails,
      List<RecurringTask<?>> rounds) {
    this.made =
        () -> make(new TransactionAwareDataSourceProxy(database), like, threads, mails, rounds);
    this.scheduler = made.get();
  }

  private static Scheduler make(
      DataSource database,
      DbSchedulerProperties like,
      int threads,
      CustomTask<Void> mails,
      List<RecurringTask<?>> rounds) {
    String host = new SchedulerName.Hostname().getName();
    var builder =
        Scheduler.create(database, mails)
            .tableName(TABLE)
            .schedulerName(
                new SchedulerName.Fixed(host.substring(0, Math.min(host.length(), LONGEST_NAME))))
            .threads(threads)
            .startTasks(rounds)
            .pollingInterval(like.getPollingInterval())
            .heartbeatInterval(like.getHeartbeatInterval())
            .missedHeartbeatsLimit(like.getMissedHeartbeatsLimit())
            .shutdownMaxWait(like.getShutdownMaxWait());
    return like.isImmediateExecutionEnabled()
        ? builder.enableImmediateExecution().build()
        : builder.build();
  }

  /** Has a mail carried, once the transaction around this is there. */
  void schedule(long mailId, Instant when) {
    scheduler.scheduleIfNotExists(ReportTasks.MAIL.instance(Long.toString(mailId)).build(), when);
  }

  @Override
  public synchronized void start() {
    if (stopped) {
      scheduler = made.get(); // one that was stopped cannot begin again
    }
    scheduler.start();
    running = true;
  }

  @Override
  public synchronized void stop() {
    scheduler.stop();
    stopped = true;
    running = false;
  }

  @Override
  public boolean isRunning() {
    return running;
  }
}
