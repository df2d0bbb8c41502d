package towerledger.weather;

import java.time.Instant;
import java.time.LocalDateTime;
import java.time.ZoneOffset;

/**
 * A year of 8760 typical hours, mapped onto real ones: an hour of the real year takes the typical
 * hour of the same UTC month, day and hour; 29 February takes that of the 28th.
 */
public final class TypicalYear {

  /** The year, without a leap day, under which typical hours are stored. */
  public static final int YEAR = 2001;

  /** Hours in it. */
  public static final int HOURS = 8760;

  private TypicalYear() {}

  /** Place of a real hour in the typical year, 0 to 8759. */
  public static int hourOfYear(Instant hourStart) {
    LocalDateTime at = LocalDateTime.ofInstant(hourStart, ZoneOffset.UTC);
    int day =
        at.getMonthValue() == 2 && at.getDayOfMonth() == 29
            ? 59
            : LocalDateTime.of(YEAR, at.getMonthValue(), at.getDayOfMonth(), 0, 0).getDayOfYear();
    return (day - 1) * 24 + at.getHour();
  }

  /** The instant under which a typical hour is stored, whatever the year it came with. */
  public static Instant stored(Instant hourStart) {
    return START.plusSeconds(3600L * hourOfYear(hourStart));
  }

  static final Instant START = LocalDateTime.of(YEAR, 1, 1, 0, 0).toInstant(ZoneOffset.UTC);
}
