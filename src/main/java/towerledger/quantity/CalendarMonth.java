package towerledger.quantity;

import java.time.Instant;
import java.time.LocalTime;
import java.time.YearMonth;
import java.time.ZoneId;

/**
 * A calendar month at a place: where daylight saving changes it is an hour longer or shorter.
 *
 * @param month year and month
 * @param zone time zone of the site
 */
public record CalendarMonth(YearMonth month, ZoneId zone) implements Comparable<CalendarMonth> {

  public static CalendarMonth of(YearMonth month, ZoneId zone) {
    return new CalendarMonth(month, zone);
  }

  /** The month an instant falls into at a place. */
  public static CalendarMonth containing(Instant instant, ZoneId zone) {
    return new CalendarMonth(YearMonth.from(instant.atZone(zone)), zone);
  }

  /** From local midnight of the first day to local midnight of the next month's first day. */
  public Span span() {
    return new Span(
        month.atDay(1).atTime(LocalTime.MIDNIGHT).atZone(zone).toInstant(),
        month.plusMonths(1).atDay(1).atTime(LocalTime.MIDNIGHT).atZone(zone).toInstant());
  }

  public CalendarMonth plusMonths(long months) {
    return new CalendarMonth(month.plusMonths(months), zone);
  }

  @Override
  public int compareTo(CalendarMonth other) {
    return month.compareTo(other.month);
  }
}
