package towerledger.balance.facts;

import java.time.Duration;
import towerledger.quantity.Span;

/**
 * The volume between two consecutive readings of one register, roll-over and multiplier applied. A
 * span whose volume cannot be told (register ran backwards, meter exchanged without last reading)
 * is left out and so declared as a gap.
 *
 * @param span from one reading to the next
 * @param litres volume, not negative
 * @param estimated whether either reading was estimated rather than read
 * @param startWithin how far the first reading's instant may be off (12 h for a bare date)
 * @param endWithin how far the last reading's instant may be off
 */
public record RegisterVolume(
    Span span, double litres, boolean estimated, Duration startWithin, Duration endWithin) {

  /** Longest span that is shared out over its months: a quarter and the slack of its readings. */
  private static final Duration LONGEST_SHARED = Duration.ofDays(124);

  public RegisterVolume {
    Plausible.notNegative("volume between readings from " + span.startInclusive(), litres, "L");
  }

  /**
   * Whether the volume can be shared out over its months; over years (from a meter's installation
   * to its first reading) it says nothing of any one of them.
   */
  public boolean shareable() {
    return span.duration().compareTo(LONGEST_SHARED) <= 0;
  }

  /** A volume between two readings made at known instants. */
  public static RegisterVolume read(Span span, double litres) {
    return new RegisterVolume(span, litres, false, Duration.ZERO, Duration.ZERO);
  }
}
