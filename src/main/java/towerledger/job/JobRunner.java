package towerledger.job;

import com.github.kagkarlsson.scheduler.task.TaskDescriptor;
import com.github.kagkarlsson.scheduler.task.helper.OneTimeTask;
import com.github.kagkarlsson.scheduler.task.helper.Tasks;
import java.util.List;
import java.util.Map;
import java.util.function.Function;
import java.util.stream.Collectors;
import org.slf4j.Logger;
import org.slf4j.LoggerFactory;
import org.springframework.context.annotation.Bean;
import org.springframework.context.annotation.Configuration;

/** Hands queued jobs to the {@link JobWork} of their kind, on whichever node picks them up. */
@Configuration(proxyBeanMethods = false)
class JobRunner {

  static final TaskDescriptor<Void> TASK = TaskDescriptor.of("job");

  private static final Logger log = LoggerFactory.getLogger(JobRunner.class);

  @Bean
  OneTimeTask<Void> jobTask(Jobs jobs, List<JobWork> kinds) {
    Map<String, JobWork> byKind =
        kinds.stream().collect(Collectors.toMap(JobWork::kind, Function.identity()));
    return Tasks.oneTime(TASK).execute((instance, context) -> run(jobs, byKind, instance.getId()));
  }

  private static void run(Jobs jobs, Map<String, JobWork> byKind, String id) {
    var found = jobs.find(id);
    if (found.isEmpty() || found.get().status().isFinal()) {
      return;
    }
    Job job = found.get();
    JobWork work = byKind.get(job.kind());
    if (work == null) {
      jobs.end(id, JobStatus.FAILED, "this version does not know work of kind " + job.kind());
      return;
    }
    jobs.begin(id);
    try {
      String message = work.run(job, (percent, words) -> jobs.report(id, percent, words));
      jobs.end(id, JobStatus.DONE, message);
    } catch (RuntimeException e) {
      log.error("job {} of kind {} failed", id, job.kind(), e);
      jobs.end(id, JobStatus.FAILED, wordsFor(e, id));
    }
  }

  /** Our own exceptions speak to people; anything else is named by the job's id for the log. */
  private static String wordsFor(RuntimeException e, String id) {
    boolean ours = e.getClass().getName().startsWith("towerledger.");
    String message = e.getMessage();
    return ours && message != null
        ? message
        : "an unexpected error stopped the work; the log has the details under job " + id;
  }
}
