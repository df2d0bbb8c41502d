package towerledger.api;

import java.util.Objects;
import org.springframework.web.bind.annotation.GetMapping;
import org.springframework.web.bind.annotation.PathVariable;
import org.springframework.web.bind.annotation.RestController;
import towerledger.account.OpenTo;
import towerledger.account.Role;
import towerledger.account.Viewer;
import towerledger.job.Job;
import towerledger.job.Jobs;

/** How long work stands. */
@RestController
@OpenTo({Role.OFFICE, Role.TECHNICIAN, Role.CUSTOMER})
class JobController {

  private final Jobs jobs;

  JobController(Jobs jobs) {
    this.jobs = jobs;
  }

  /**
   * A job as whoever waits sees it.
   *
   * @param id its identity
   * @param status {@code queued}, {@code running}, {@code done} or {@code failed}
   * @param progress 0 to 100
   * @param message words
   */
  record JobAnswer(String id, String status, int progress, String message) {}

  /** A job that this viewer asked for, or any job for the office. */
  @GetMapping("/api/v1/jobs/{id}")
  JobAnswer get(Viewer viewer, @PathVariable("id") String id) {
    Job job =
        jobs.find(id)
            .filter(found -> maySee(viewer, found))
            .orElseThrow(() -> new NotThereException("job", id));
    return new JobAnswer(job.id(), job.status().code(), job.progress(), job.message());
  }

  private static boolean maySee(Viewer viewer, Job job) {
    return viewer.isOffice()
        || job.actor().equals(viewer.email())
        || (viewer.customerId() != null && Objects.equals(viewer.customerId(), job.customerId()));
  }
}
