package towerledger.ledger;

import java.time.Clock;
import java.time.Duration;
import java.time.Instant;
import java.util.ArrayList;
import java.util.Collections;
import java.util.HashSet;
import java.util.List;
import java.util.Set;
import java.util.concurrent.ConcurrentHashMap;
import java.util.concurrent.ExecutionException;
import java.util.concurrent.ExecutorService;
import java.util.concurrent.Executors;
import java.util.concurrent.Future;
import java.util.concurrent.atomic.AtomicInteger;
import java.util.stream.Collectors;
import org.slf4j.Logger;
import org.slf4j.LoggerFactory;
import org.springframework.transaction.support.TransactionTemplate;
import towerledger.job.Progress;
import towerledger.weather.WeatherRecords;

/**
 * One run over all that is stale, by as many threads as there are processors: each takes a few
 * sites at a time in a transaction of its own. Where one of them cannot be reckoned, each is tried
 * alone, so that none suffers for another.
 */
final class ReckoningRun {

  /** How long to wait for sites that other nodes are at. */
  private static final Duration PATIENCE = Duration.ofMinutes(5);

  private static final Duration BETWEEN_REPORTS = Duration.ofSeconds(1);
  private static final Logger log = LoggerFactory.getLogger(ReckoningRun.class);

  private final StaleSystems stale;
  private final SiteReckoning reckoning;
  private final WeatherRecords weather;
  private final TransactionTemplate transaction;
  private final Clock clock;
  private final boolean upgradeOrdered;
  private final Progress progress;
  private final Set<Long> failed = ConcurrentHashMap.newKeySet();

  /** Sites to be tried alone, since something went wrong with them and others together. */
  private final Set<Long> alone = ConcurrentHashMap.newKeySet();

  private final AtomicInteger sites = new AtomicInteger();
  private final AtomicInteger written = new AtomicInteger();
  private long total = 1;
  private Instant reported = Instant.EPOCH;

  ReckoningRun(
      StaleSystems stale,
      SiteReckoning reckoning,
      WeatherRecords weather,
      TransactionTemplate transaction,
      Clock clock,
      boolean upgradeOrdered,
      Progress progress) {
    this.stale = stale;
    this.reckoning = reckoning;
    this.weather = weather;
    this.transaction = transaction;
    this.clock = clock;
    this.upgradeOrdered = upgradeOrdered;
    this.progress = progress;
  }

  /** Sites that could not be reckoned. */
  int failures() {
    return failed.size();
  }

  /** What was done, in words. */
  String message() {
    return "%d sites reckoned, %d months written".formatted(sites.get(), written.get());
  }

  /** Reckons until nothing waits that could be reckoned. */
  void work() {
    total = Math.max(1, stale.count());
    int hands =
        Math.min(Runtime.getRuntime().availableProcessors(), stale.listWaiting(failed).size());
    ExecutorService others = Executors.newFixedThreadPool(Math.max(1, hands - 1));
    try {
      List<Future<?>> begun = new ArrayList<>();
      for (int i = 1; i < hands; i++) {
        begun.add(others.submit(new Hand(false)::takeWhatWaits));
      }
      Hand mine = new Hand(true);
      Instant lastWork = clock.instant();
      while (stale.countOutside(failed) > 0
          && Duration.between(lastWork, clock.instant()).compareTo(PATIENCE) <= 0) {
        if (mine.takeWhatWaits()) {
          lastWork = clock.instant();
        } else {
          pause();
        }
      }
      for (Future<?> other : begun) {
        other.get();
      }
    } catch (ExecutionException e) {
      throw e.getCause() instanceof RuntimeException cause
          ? cause
          : new IllegalStateException("a thread of the reckoning ended", e);
    } catch (InterruptedException e) {
      Thread.currentThread().interrupt();
      throw new IllegalStateException("stopped while waiting for other threads", e);
    } finally {
      others.shutdownNow();
    }
  }

  private synchronized void report() {
    Instant now = clock.instant();
    if (Duration.between(reported, now).compareTo(BETWEEN_REPORTS) >= 0) {
      reported = now;
      progress.report(
          (int) Math.min(99, 100 * (total - Math.min(total, stale.count())) / total),
          "%d sites reckoned".formatted(sites.get()));
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

  /** One thread at work, and the weather it has read. */
  private final class Hand {

    private final boolean fromTheStart;
    private WeatherRecords.Reading stations = weather.open();

    /** Marks that could be seen before any of this weather was read. */
    private Set<Long> seen = Set.of();

    /** Sites that it is at, or was last. */
    private Set<Long> taken = Set.of();

    /**
     * A hand.
     *
     * @param fromTheStart whether it begins with the site that waited longest, or from the other
     *     end, out of the way of the others
     */
    Hand(boolean fromTheStart) {
      this.fromTheStart = fromTheStart;
    }

    /** Reckons what waits until others are at all of the rest. */
    boolean takeWhatWaits() {
      boolean any = false;
      boolean more = true;
      while (more) {
        more = false;
        List<Long> waiting = new ArrayList<>(stale.listWaiting(failed));
        if (!fromTheStart) {
          Collections.reverse(waiting);
        }
        Set<Long> done = new HashSet<>();
        for (long site : waiting) {
          if (!done.contains(site) && reckon(site)) {
            done.addAll(taken);
            more = true;
          }
        }
        any |= more;
      }
      return any;
    }

    private boolean reckon(long site) {
      taken = Set.of();
      try {
        transaction.executeWithoutResult(status -> reckonMarked(site));
        if (!taken.isEmpty()) {
          sites.addAndGet(taken.size());
          report();
        }
        return !taken.isEmpty();
      } catch (RuntimeException e) {
        if (taken.size() > 1) {
          log.warn("sites {} could not be reckoned together: each is tried alone", taken, e);
          alone.addAll(taken);
          taken = Set.of();
        } else {
          log.error("site {} could not be reckoned", site, e);
          failed.add(site);
        }
        return true;
      }
    }

    private void reckonMarked(long site) {
      List<StaleSystems.Stale> marks =
          alone.contains(site) ? stale.claim(site) : stale.claimTogether(site, notTogether());
      if (marks.isEmpty()) {
        return;
      }
      taken = marks.stream().map(StaleSystems.Stale::siteId).collect(Collectors.toSet());
      // A mark is written with the facts it tells of: weather read after it could be seen is new
      // enough for it.
      List<Long> ids = marks.stream().map(StaleSystems.Stale::id).toList();
      if (!seen.containsAll(ids)) {
        seen = stale.listIds();
        stations = weather.open();
      }
      var wanted = StaleSystems.WaitsFor.of(marks);
      written.addAndGet(
          reckoning.reckon(taken, wanted.first(), wanted.reason(), upgradeOrdered, stations));
      stale.settle(marks);
    }

    private Set<Long> notTogether() {
      Set<Long> sites = new HashSet<>(failed);
      sites.addAll(alone);
      return sites;
    }
  }
}
