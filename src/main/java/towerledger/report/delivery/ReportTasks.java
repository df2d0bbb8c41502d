package towerledger.report.delivery;

import com.github.kagkarlsson.scheduler.task.CompletionHandler;
import com.github.kagkarlsson.scheduler.task.TaskDescriptor;
import com.github.kagkarlsson.scheduler.task.helper.CustomTask;
import com.github.kagkarlsson.scheduler.task.helper.RecurringTask;
import com.github.kagkarlsson.scheduler.task.helper.Tasks;
import com.github.kagkarlsson.scheduler.task.schedule.FixedDelay;
import java.time.Clock;
import java.time.Duration;
import org.slf4j.Logger;
import org.slf4j.LoggerFactory;
import org.springframework.beans.factory.ObjectProvider;
import org.springframework.boot.context.properties.EnableConfigurationProperties;
import org.springframework.context.annotation.Bean;
import org.springframework.context.annotation.Configuration;
import org.springframework.mail.javamail.JavaMailSenderImpl;

/** The work of carrying mails: a task a mail, run by whichever node is free. */
@Configuration(proxyBeanMethods = false)
@EnableConfigurationProperties(MailSettings.class)
class ReportTasks {

  /** Carries the mail whose key is the name of the instance. */
  static final TaskDescriptor<Void> MAIL = TaskDescriptor.of("report-mail");

  private static final Logger log = LoggerFactory.getLogger(ReportTasks.class);

  /** When something failed that is no answer of a relay: the database, or a mistake of ours. */
  private static final Duration AFTER_FAILURE = Duration.ofMinutes(2);

  @Bean
  Relay mailRelay(ObjectProvider<JavaMailSenderImpl> sender, MailSettings settings, Clock clock) {
    return new Relay(sender.getIfAvailable(), settings, clock);
  }

  @Bean
  Courier courier(Outbox outbox, Relay relay, MailSettings settings, Clock clock) {
    return new Courier(outbox, relay, settings, clock);
  }

  @Bean
  RecurringTask<Void> reportBouncesTask(MailSettings settings, Outbox outbox) {
    return Tasks.recurring("report-bounces", FixedDelay.ofMinutes(10))
        .execute(
            (instance, context) ->
                settings
                    .bounceMailbox()
                    .ifPresent(mailbox -> new BounceMailbox(mailbox, outbox).read()));
  }

  @Bean
  CustomTask<Void> reportMailTask(Courier courier, Clock clock) {
    return Tasks.custom(MAIL)
        .onFailure(
            (complete, operations) -> {
              log.error(
                  "report mail {} could not be carried; it is tried again in {}",
                  complete.getExecution().taskInstance.getId(),
                  AFTER_FAILURE,
                  complete.getCause().orElse(null));
              operations.reschedule(complete, clock.instant().plus(AFTER_FAILURE));
            })
        .execute(
            (instance, context) -> {
              var again = courier.carry(Long.parseLong(instance.getId()));
              return again.isPresent()
                  ? (complete, operations) -> operations.reschedule(complete, again.get())
                  : new CompletionHandler.OnCompleteRemove<>();
            });
  }
}
