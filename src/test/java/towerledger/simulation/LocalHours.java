package towerledger.simulation;

import java.time.DayOfWeek;
import java.time.LocalDate;
import java.time.ZoneId;
import java.time.ZonedDateTime;

/** What the clock on the wall and the calendar say in each hour of a grid. */
public final class LocalHours {

  private final HourGrid grid;
  private final ZoneId zone;
  private final byte[] hourOfDay;
  private final byte[] dayOfWeek;
  private final int[] epochDay;
  private final boolean[] holiday;
  private final float[] season;

  public LocalHours(HourGrid grid, ZoneId zone) {
    this.grid = grid;
    this.zone = zone;
    int n = grid.hours();
    hourOfDay = new byte[n];
    dayOfWeek = new byte[n];
    epochDay = new int[n];
    holiday = new boolean[n];
    season = new float[n];
    for (int i = 0; i < n; i++) {
      ZonedDateTime local = grid.at(i).atZone(zone);
      LocalDate date = local.toLocalDate();
      hourOfDay[i] = (byte) local.getHour();
      dayOfWeek[i] = (byte) local.getDayOfWeek().getValue();
      epochDay[i] = (int) date.toEpochDay();
      holiday[i] = isHoliday(date);
      season[i] = (float) ((date.getDayOfYear() - 1 + local.getHour() / 24.0) / 365.25);
    }
  }

  public ZoneId zone() {
    return zone;
  }

  public HourGrid grid() {
    return grid;
  }

  public int hourOfDay(int hour) {
    return hourOfDay[hour];
  }

  /** Monday is 1. */
  public int dayOfWeek(int hour) {
    return dayOfWeek[hour];
  }

  public LocalDate date(int hour) {
    return LocalDate.ofEpochDay(epochDay[hour]);
  }

  public boolean isHoliday(int hour) {
    return holiday[hour];
  }

  /** Part of the year gone by, 0 to 1. */
  public double season(int hour) {
    return season[hour];
  }

  /** Days on which offices and schools in this invented country stay shut. */
  static boolean isHoliday(LocalDate date) {
    int month = date.getMonthValue();
    int day = date.getDayOfMonth();
    DayOfWeek weekday = date.getDayOfWeek();
    return (month == 1 && day == 1)
        || (month == 7 && day == 4)
        || (month == 12 && day >= 24 && day <= 26)
        || (month == 5 && weekday == DayOfWeek.MONDAY && day >= 25)
        || (month == 9 && weekday == DayOfWeek.MONDAY && day <= 7)
        || (month == 11
            && (weekday == DayOfWeek.THURSDAY && day >= 22 && day <= 28
                || weekday == DayOfWeek.FRIDAY && day >= 23 && day <= 29));
  }
}
