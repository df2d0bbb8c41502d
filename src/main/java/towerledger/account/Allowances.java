package towerledger.account;

import com.github.benmanes.caffeine.cache.Caffeine;
import com.github.benmanes.caffeine.cache.LoadingCache;
import io.github.bucket4j.Bucket;
import java.time.Duration;

/**
 * One token bucket a key, refilled evenly. A key not seen for two refill times is forgotten, which
 * is the same as full; so is the longest unseen where there are more keys than fit.
 */
final class Allowances {

  private static final int KEYS = 200_000;

  private final LoadingCache<String, Bucket> buckets;

  Allowances(int capacity, Duration refill) {
    this.buckets =
        Caffeine.newBuilder()
            .maximumSize(KEYS)
            .expireAfterAccess(refill.multipliedBy(2))
            .build(
                key ->
                    Bucket.builder()
                        .addLimit(limit -> limit.capacity(capacity).refillGreedy(capacity, refill))
                        .build());
  }

  /**
   * Takes one.
   *
   * @return 0 if there was one; else the seconds until there is one, 1 or more
   */
  long take(String key) {
    var probe = buckets.get(key).tryConsumeAndReturnRemaining(1);
    return probe.isConsumed()
        ? 0
        : Math.max(1, (probe.getNanosToWaitForRefill() + 999_999_999L) / 1_000_000_000L);
  }

  /** Gives one back. */
  void giveBack(String key) {
    buckets.get(key).addTokens(1);
  }
}
