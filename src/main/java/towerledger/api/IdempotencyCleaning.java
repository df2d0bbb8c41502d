package towerledger.api;

import com.github.kagkarlsson.scheduler.task.helper.RecurringTask;
import com.github.kagkarlsson.scheduler.task.helper.Tasks;
import com.github.kagkarlsson.scheduler.task.schedule.FixedDelay;
import org.springframework.context.annotation.Bean;
import org.springframework.context.annotation.Configuration;

/** Forgets answers that no retry will ask for any more. */
@Configuration(proxyBeanMethods = false)
class IdempotencyCleaning {

  @Bean
  RecurringTask<Void> forgetOldAnswers(GivenAnswers answers) {
    return Tasks.recurring("api-forget-old-answers", FixedDelay.ofHours(1))
        .execute((instance, context) -> answers.forgetOld());
  }
}
