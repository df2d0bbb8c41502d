package towerledger.backup;

import com.github.kagkarlsson.scheduler.task.helper.RecurringTask;
import com.github.kagkarlsson.scheduler.task.helper.Tasks;
import com.github.kagkarlsson.scheduler.task.schedule.Schedules;
import java.io.IOException;
import java.sql.SQLException;
import java.time.LocalTime;
import org.slf4j.Logger;
import org.slf4j.LoggerFactory;
import org.springframework.context.annotation.Bean;
import org.springframework.context.annotation.Configuration;

/** A copy a day; one that was missed while the program stood still is made at its next start. */
@Configuration(proxyBeanMethods = false)
class DailyBackup {

  private static final LocalTime WHEN_IT_IS_QUIET = LocalTime.of(2, 40);
  private static final Logger log = LoggerFactory.getLogger(DailyBackup.class);

  @Bean
  RecurringTask<Void> copyTheEmbeddedDatabase(EmbeddedBackups backups) {
    return Tasks.recurring("backup-embedded-database", Schedules.daily(WHEN_IT_IS_QUIET))
        .execute(
            (instance, context) -> {
              try {
                backups.take();
              } catch (IOException | SQLException e) {
                log.error("no copy of the database was made; is there room on the disk?", e);
              }
            });
  }
}
