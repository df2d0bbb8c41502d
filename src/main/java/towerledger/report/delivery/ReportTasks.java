package towerledger.report.delivery;

import com.github.kagkarlsson.scheduler.boot.config.DbSchedulerProperties;
import com.github.kagkarlsson.scheduler.task.CompletionHandler;
import com.github.kagkarlsson.scheduler.task.TaskDescriptor;
import com.github.kagkarlsson.scheduler.task.helper.CustomTask;
import com.github.kagkarlsson.scheduler.task.helper.Tasks;
import com.github.kagkarlsson.scheduler.task.schedule.FixedDelay;
import java.time.Clock;
import java.time.Duration;
import java.util.List;
import javax.sql.DataSource;
import org.slf4j.Logger;
import org.slf4j.LoggerFactory;
import org.springframework.beans.factory.ObjectProvider;
import org.springframework.beans.factory.annotation.Value;
import org.springframework.boot.context.properties.EnableConfigurationProperties;
import org.springframework.context.MessageSource;
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

  /**
   * @param threads mails under way at once on this node, at most
   */
  @Bean
  MailRounds mailRounds(
      DataSource database,
      DbSchedulerProperties like,
      @Value("${towerledger.mail.threads:2}") int threads,
      Courier courier,
      Relay relay,
      MailSettings settings,
      Outbox outbox,
      MessageSource messages,
      Clock clock) {
    OfficeNotices notices = new OfficeNotices(outbox, relay, settings, messages);
    return new MailRounds(
        database,
        like,
        threads,
        mails(courier, clock),
        List.of(
            Tasks.recurring("report-bounces", FixedDelay.ofMinutes(10))
                .execute((instance, context) -> readBounces(settings, outbox)),
            Tasks.recurring("report-notices", FixedDelay.ofMinutes(5))
                .execute((instance, context) -> notices.send())));
  }

  private static void readBounces(MailSettings settings, Outbox outbox) {
    settings.bounceMailbox().ifPresent(mailbox -> new BounceMailbox(mailbox, outbox).read());
  }

  private static CustomTask<Void> mails(Courier courier, Clock clock) {
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
