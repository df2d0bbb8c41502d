package towerledger.ledger;

import java.time.Duration;
import java.time.Instant;
import java.time.YearMonth;
import java.time.ZoneId;
import java.util.Locale;
import towerledger.balance.Reconciler;
import towerledger.quantity.CalendarMonth;

/** How far a month of the ledger has come. */
public enum LedgerStatus {
  /** The month is not over. */
  OPEN,
  /** Over, and still taking facts in. */
  PROVISIONAL,
  /** Stands on the facts known ten days after its end, or when the office closed it. */
  CLOSED,
  /** Closed, and since restated because a fact or setting of that month changed. */
  RESTATED;

  private static final Duration CLOSES_AFTER = Reconciler.CLOSE_AFTER;

  /** The word used in files and by the REST contract. */
  public String code() {
    return name().toLowerCase(Locale.ROOT);
  }

  /**
   * The status with a code.
   *
   * @throws IllegalArgumentException when there is none
   */
  public static LedgerStatus ofCode(String code) {
    return valueOf(code.toUpperCase(Locale.ROOT));
  }

  /** Whether hindsight may no longer change it. */
  boolean isClosed() {
    return this == CLOSED || this == RESTATED;
  }

  /** What a month is by the calendar alone. */
  static LedgerStatus byCalendar(YearMonth month, ZoneId zone, Instant now) {
    Instant end = CalendarMonth.of(month, zone).span().endExclusive();
    if (now.isBefore(end)) {
      return OPEN;
    }
    return now.isBefore(end.plus(CLOSES_AFTER)) ? PROVISIONAL : CLOSED;
  }
}
