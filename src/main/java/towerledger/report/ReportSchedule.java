package towerledger.report;

import com.github.kagkarlsson.scheduler.SchedulerClient;
import com.github.kagkarlsson.scheduler.task.CompletionHandler;
import com.github.kagkarlsson.scheduler.task.TaskDescriptor;
import com.github.kagkarlsson.scheduler.task.helper.CustomTask;
import com.github.kagkarlsson.scheduler.task.helper.RecurringTask;
import com.github.kagkarlsson.scheduler.task.helper.Tasks;
import com.github.kagkarlsson.scheduler.task.schedule.FixedDelay;
import java.time.Clock;
import java.time.Duration;
import java.time.Instant;
import java.time.YearMonth;
import java.util.Optional;
import org.slf4j.Logger;
import org.slf4j.LoggerFactory;
import org.springframework.beans.factory.ObjectProvider;
import org.springframework.context.annotation.Bean;
import org.springframework.context.annotation.Configuration;

/**
 * Writes reports when they fall due. One node looks what is due; each report is a task of its own,
 * named by customer and month, so that any node may write it and none writes it twice.
 */
@Configuration(proxyBeanMethods = false)
class ReportSchedule {

  /** Writes the report named {@code customer:month}. */
  static final TaskDescriptor<Void> PREPARE = TaskDescriptor.of("report-prepare");

  private static final Logger log = LoggerFactory.getLogger(ReportSchedule.class);
  private static final Duration AFTER_FAILURE = Duration.ofMinutes(10);

  @Bean
  RecurringTask<Void> reportDueTask(
      ReportPlans plans, Reports reports, ObjectProvider<SchedulerClient> scheduler, Clock clock) {
    return Tasks.recurring("report-due", FixedDelay.ofMinutes(5))
        .execute((instance, context) -> schedule(plans, reports, scheduler.getObject(), clock));
  }

  private static void schedule(
      ReportPlans plans, Reports reports, SchedulerClient scheduler, Clock clock) {
    Instant now = clock.instant();
    for (ReportPlan plan : plans.listActive()) {
      YearMonth month = plan.newestDue(now);
      if (!plan.due(month).isBefore(plan.activeSince())
          && !reports.isWritten(plan.customerId(), month)) {
        scheduler.scheduleIfNotExists(
            PREPARE.instance(plan.customerId() + ":" + month).build(), now);
      }
    }
  }

  @Bean
  CustomTask<Void> reportPrepareTask(DueReports due, Clock clock) {
    return Tasks.custom(PREPARE)
        .onFailure(
            (complete, operations) -> {
              log.error(
                  "report {} could not be written; it is tried again in {}",
                  complete.getExecution().taskInstance.getId(),
                  AFTER_FAILURE,
                  complete.getCause().orElse(null));
              operations.reschedule(complete, clock.instant().plus(AFTER_FAILURE));
            })
        .execute(
            (instance, context) -> {
              String[] parts = instance.getId().split(":");
              Optional<Instant> again =
                  due.prepare(Long.parseLong(parts[0]), YearMonth.parse(parts[1]));
              return again.isPresent()
                  ? (complete, operations) -> operations.reschedule(complete, again.get())
                  : new CompletionHandler.OnCompleteRemove<>();
            });
  }
}
