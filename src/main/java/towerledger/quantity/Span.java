package towerledger.quantity;

import java.time.Duration;
import java.time.Instant;

/**
 * A stretch of time that holds its first instant and not its last.
 *
 * @param startInclusive first instant inside
 * @param endExclusive first instant no longer inside; after the start
 */
public record Span(Instant startInclusive, Instant endExclusive) {

  public Span {
    if (!endExclusive.isAfter(startInclusive)) {
      throw new IllegalArgumentException(
          "span ends %s, not after its start %s; give the first instant no longer included"
              .formatted(endExclusive, startInclusive));
    }
  }

  public static Span of(Instant startInclusive, Instant endExclusive) {
    return new Span(startInclusive, endExclusive);
  }

  public boolean contains(Instant instant) {
    return !instant.isBefore(startInclusive) && instant.isBefore(endExclusive);
  }

  public boolean overlaps(Span other) {
    return startInclusive.isBefore(other.endExclusive)
        && other.startInclusive.isBefore(endExclusive);
  }

  public Duration duration() {
    return Duration.between(startInclusive, endExclusive);
  }

  /** Length in hours, fractions included. */
  public double hours() {
    return duration().toMillis() / 3_600_000.0;
  }
}
