package towerledger.balance;

import java.time.Instant;
import java.time.LocalDateTime;
import java.time.ZoneId;
import java.time.ZoneOffset;
import java.time.zone.ZoneOffsetTransition;
import java.time.zone.ZoneRules;

/**
 * Local date and time of instants that mostly ascend: the zone is asked only where its clocks are
 * put forward or back. Mutable.
 */
final class LocalHours {

  private final ZoneRules rules;
  private ZoneOffset offset = ZoneOffset.UTC;

  /** The offset holds from here on up to, but not at, the end; seconds since 1970 UTC. */
  private long from = Long.MAX_VALUE;

  private long until = Long.MIN_VALUE;

  LocalHours(ZoneId zone) {
    rules = zone.getRules();
  }

  /** Local date and time at a number of seconds since 1970 UTC. */
  LocalDateTime at(long epochSecond) {
    if (epochSecond < from || epochSecond >= until) {
      Instant instant = Instant.ofEpochSecond(epochSecond);
      ZoneOffsetTransition next = rules.nextTransition(instant);
      offset = rules.getOffset(instant);
      from = epochSecond;
      until = next == null ? Long.MAX_VALUE : next.toEpochSecond();
    }
    return LocalDateTime.ofEpochSecond(epochSecond, 0, offset);
  }
}
