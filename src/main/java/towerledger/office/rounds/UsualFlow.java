package towerledger.office.rounds;

import java.time.Duration;
import java.time.Instant;
import java.util.List;
import java.util.Optional;
import towerledger.balance.facts.RegisterVolume;
import towerledger.meter.ExpectedVolume;

/**
 * What a meter usually passes in a day, from its own readings: the least and the most between two
 * readings of the last thirteen months, each widened by half for weather and load that have not
 * been seen yet. The widening is common practice, no source.
 *
 * @param lowLitresPerDay lower bound
 * @param highLitresPerDay upper bound
 */
record UsualFlow(double lowLitresPerDay, double highLitresPerDay) {

  private static final int LEAST_VOLUMES = 3;
  private static final double WIDER_BELOW = 0.5;
  private static final double WIDER_ABOVE = 1.5;
  private static final double HOURS_OF_A_DAY = 24;
  private static final double SHORTEST_HOURS = 12;

  /** From volumes between readings; empty when there are too few to say what is usual. */
  static Optional<UsualFlow> of(List<RegisterVolume> volumes) {
    List<Double> daily =
        volumes.stream()
            .filter(volume -> volume.span().hours() >= SHORTEST_HOURS)
            .map(volume -> volume.litres() / volume.span().hours() * HOURS_OF_A_DAY)
            .sorted()
            .toList();
    if (daily.size() < LEAST_VOLUMES) {
      return Optional.empty();
    }
    return Optional.of(
        new UsualFlow(
            Math.max(0, daily.get(0) * WIDER_BELOW),
            Math.max(0, daily.get(daily.size() - 1) * WIDER_ABOVE)));
  }

  /** What to expect between two instants. */
  ExpectedVolume between(Instant last, Instant now) {
    double days = Math.max(0, Duration.between(last, now).toMinutes() / (60 * HOURS_OF_A_DAY));
    return new ExpectedVolume(lowLitresPerDay * days, highLitresPerDay * days);
  }
}
