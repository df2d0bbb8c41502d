package towerledger.ledger;

import java.time.Clock;
import java.time.YearMonth;
import java.util.List;
import org.jspecify.annotations.Nullable;
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
 * Reckons what is stale, a few sites at a time in a transaction of their own: whatever is done when
 * a node dies is done, the rest is taken up elsewhere. Several runs, on any nodes, share the work.
 */
@Service
public class Reconciliations implements JobWork {

  /** Kind of the job. */
  public static final String KIND = "reconciliation";

  /** Ends of a payload that lets a newer model restate closed months. */
  private static final String ORDERED = "ordered";

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
    var run = new ReckoningRun(stale, reckoning, weather, transaction, clock, ordered, progress);
    run.work();
    if (run.failures() > 0) {
      throw new ReconciliationException(run.failures());
    }
    return run.message();
  }
}
