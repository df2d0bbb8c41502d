package towerledger.demo;

import java.io.IOException;
import java.io.UncheckedIOException;
import java.time.Duration;
import java.util.Optional;
import org.springframework.core.io.Resource;
import org.springframework.core.io.support.PathMatchingResourcePatternResolver;
import org.springframework.stereotype.Component;
import org.springframework.transaction.annotation.Transactional;
import towerledger.account.Actor;
import towerledger.account.Viewer;
import towerledger.intake.ImportReceipt;
import towerledger.intake.ImportRequest;
import towerledger.intake.Importer;
import towerledger.intake.Upload;
import towerledger.job.Job;
import towerledger.job.JobStatus;
import towerledger.job.JobWork;
import towerledger.job.Jobs;
import towerledger.job.Progress;
import towerledger.site.SiteAccess;

/**
 * Takes the invented book that comes with the program into an empty ledger, the way any bundle is
 * taken, and waits until its months are reckoned. Begun twice, it takes nothing twice.
 */
@Component
class DemoScenario implements JobWork {

  static final String KIND = "demo";

  private static final String FILES = "classpath:demo-data/*.csv";
  private static final int TAKEN_AT = 40;
  private static final Duration BETWEEN_LOOKS = Duration.ofMillis(500);

  private final Importer importer;
  private final Jobs jobs;
  private final SiteAccess access;

  DemoScenario(Importer importer, Jobs jobs, SiteAccess access) {
    this.importer = importer;
    this.jobs = jobs;
    this.access = access;
  }

  /**
   * Orders the scenario.
   *
   * @return id of the job; of the one at work where there is one; empty when the ledger holds sites
   *     already, which are never mixed with invented ones
   */
  @Transactional
  public Optional<String> order(Viewer viewer, Actor actor) {
    Optional<Job> unfinished = jobs.findUnfinished(KIND);
    if (unfinished.isPresent()) {
      return unfinished.map(Job::id);
    }
    return access.listSites(viewer).isEmpty()
        ? Optional.of(jobs.submit(KIND, null, null, actor.name()))
        : Optional.empty();
  }

  @Override
  public String kind() {
    return KIND;
  }

  @Override
  public String run(Job job, Progress progress) {
    progress.report(2, "The invented book is being read");
    ImportReceipt receipt;
    try (Upload upload = Upload.empty()) {
      for (Resource file : new PathMatchingResourcePatternResolver().getResources(FILES)) {
        upload.add(String.valueOf(file.getFilename()), file::getInputStream);
      }
      receipt =
          importer.take(
              upload,
              new ImportRequest(new Actor(job.actor(), "demo scenario"), null, "demo scenario"));
    } catch (IOException e) {
      throw new UncheckedIOException(e);
    }
    long rows = receipt.files().stream().mapToLong(file -> file.rows()).sum();
    progress.report(TAKEN_AT, "%,d rows are taken; the months are being reckoned".formatted(rows));
    waitFor(receipt.reconciliation().id(), progress);
    return "%,d rows are taken and their months are reckoned".formatted(rows);
  }

  private void waitFor(String reconciliation, Progress progress) {
    while (true) {
      Optional<Job> found = jobs.find(reconciliation);
      if (found.isEmpty() || found.get().status().isFinal()) {
        if (found.isPresent() && found.get().status() == JobStatus.FAILED) {
          throw new DemoException(found.get().message());
        }
        return;
      }
      Job reckoning = found.get();
      progress.report(
          TAKEN_AT + (99 - TAKEN_AT) * reckoning.progress() / 100,
          "The months are being reckoned: "
              + (reckoning.message().isBlank() ? "waiting for a turn" : reckoning.message()));
      try {
        Thread.sleep(BETWEEN_LOOKS.toMillis());
      } catch (InterruptedException e) {
        Thread.currentThread().interrupt();
        throw new IllegalStateException("stopped while the demo was being reckoned", e);
      }
    }
  }
}
