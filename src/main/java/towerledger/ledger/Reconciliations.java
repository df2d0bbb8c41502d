package towerledger.ledger;

import java.time.Clock;
import java.time.Duration;
import java.time.Instant;
import java.time.YearMonth;
import java.util.ArrayList;
import java.util.List;
import java.util.Objects;
import java.util.Optional;
import java.util.stream.Stream;
import org.jspecify.annotations.Nullable;
import org.slf4j.Logger;
import org.slf4j.LoggerFactory;
import org.springframework.stereotype.Service;
import org.springframework.transaction.annotation.Transactional;
import org.springframework.transaction.support.TransactionTemplate;
import towerledger.account.Actor;
import towerledger.job.Job;
import towerledger.job.JobWork;
import towerledger.job.Jobs;
import towerledger.job.Progress;
import towerledger.site.CoolingSystem;
import towerledger.weather.WeatherRecords;

/**
 * Reckons what is stale, a site at a time, each in a transaction of its own: whatever is done when
 * a node dies is done, the rest is taken up elsewhere. Several runs, on any nodes, share the work.
 */
@Service
public class Reconciliations implements JobWork {

  /** Kind of the job. */
  public static final String KIND = "reconciliation";

  /** Ends of a payload that lets a newer model restate closed months. */
  private static final String ORDERED = "ordered";

  private static final Duration PATIENCE = Duration.ofMinutes(5);
  private static final Logger log = LoggerFactory.getLogger(Reconciliations.class);

  private final StaleSystems stale;
  private final SiteReckoning reckoning;
  private final WeatherRecords weather;
  private final TransactionTemplate transaction;
  private final Jobs jobs;
  private final Clock clock;

  Reconciliations(
      StaleSystems stale,
      SiteReckoning reckoning,
      WeatherRecords weather,
      TransactionTemplate transaction,
      Jobs jobs,
      Clock clock) {
    this.stale = stale;
    this.reckoning = reckoning;
    this.weather = weather;
    this.transaction = transaction;
    this.jobs = jobs;
    this.clock = clock;
  }

  /**
   * Orders systems to be reckoned anew; a closed month is restated only where its own facts or the
   * model changed.
   *
   * @param systems the systems
   * @param first first month; null for all there are
   * @param last last month; null for no last
   * @return id of the job
   */
  @Transactional
  public String order(
      List<CoolingSystem> systems,
      @Nullable YearMonth first,
      @Nullable YearMonth last,
      Actor actor) {
    for (CoolingSystem system : systems) {
      stale.mark(system.id(), first, last, "recomputation ordered by " + actor.name());
    }
    return jobs.submit(KIND, ORDERED, null, actor.name());
  }

  @Override
  public String kind() {
    return KIND;
  }

  @Override
  public String run(Job job, Progress progress) {
    boolean ordered = ORDERED.equals(job.payload());
    WeatherRecords.Reading stations = weather.open();
    List<Long> failed = new ArrayList<>();
    long total = Math.max(1, stale.count());
    int sites = 0;
    int written = 0;
    Instant lastWork = clock.instant();
    while (true) {
      Optional<Done> done = reckonOne(failed, ordered, stations);
      if (done.isPresent()) {
        sites++;
        written += done.get().revisions();
        lastWork = clock.instant();
        progress.report(
            (int) Math.min(99, 100 * (total - Math.min(total, stale.count())) / total),
            "%d sites reckoned".formatted(sites));
        continue;
      }
      if (stale.countOutside(failed) == 0
          || Duration.between(lastWork, clock.instant()).compareTo(PATIENCE) > 0) {
        break;
      }
      pause();
    }
    if (!failed.isEmpty()) {
      throw new ReconciliationException(failed.size());
    }
    return "%d sites reckoned, %d months written".formatted(sites, written);
  }

  private record Done(int revisions) {}

  private Optional<Done> reckonOne(
      List<Long> failed, boolean ordered, WeatherRecords.Reading stations) {
    List<Long> attempted = new ArrayList<>();
    try {
      return Objects.requireNonNull(
          transaction.execute(
              status -> {
                List<StaleSystems.Stale> marks = stale.claimSite(failed);
                if (marks.isEmpty()) {
                  return Optional.<Done>empty();
                }
                long site = marks.get(0).siteId();
                attempted.add(site);
                boolean all = marks.stream().anyMatch(mark -> mark.first() == null);
                YearMonth first =
                    all
                        ? null
                        : marks.stream()
                            .flatMap(mark -> Stream.ofNullable(mark.first()))
                            .min(YearMonth::compareTo)
                            .orElse(null);
                int revisions =
                    reckoning.reckon(
                        site,
                        first,
                        Objects.requireNonNull(marks.get(0)).reason(),
                        ordered,
                        stations);
                stale.settle(marks);
                return Optional.of(new Done(revisions));
              }));
    } catch (RuntimeException e) {
      if (attempted.isEmpty()) {
        throw e;
      }
      log.error("site {} could not be reckoned", attempted.get(0), e);
      failed.addAll(attempted);
      return Optional.of(new Done(0));
    }
  }

  private static void pause() {
    try {
      Thread.sleep(200);
    } catch (InterruptedException e) {
      Thread.currentThread().interrupt();
      throw new IllegalStateException("stopped while waiting for other nodes", e);
    }
  }
}
