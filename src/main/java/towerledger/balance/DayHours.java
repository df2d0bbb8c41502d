package towerledger.balance;

import java.time.LocalDateTime;
import java.time.ZoneId;

/** What kind each hour of a record is: working hours, and those in which the pumps change. */
final class DayHours {

  private static final int WORK_FROM = 7;
  private static final int WORK_TO = 17;
  private static final int WORKING_DAYS = 5;

  private final boolean[] work;
  private final boolean[] edge;
  private final int firstNoon;

  private DayHours(boolean[] work, boolean[] edge, int firstNoon) {
    this.work = work;
    this.edge = edge;
    this.firstNoon = firstNoon;
  }

  static DayHours of(SystemHours hours, ZoneId zone) {
    int n = hours.count();
    boolean[] work = new boolean[n];
    boolean[] edge = new boolean[n];
    double[] load = hours.load();
    LocalHours localHours = new LocalHours(zone);
    LocalDateTime begin = localHours.at(hours.startEpochSecond());
    int hourOfDay = begin.getHour();
    int firstNoon = Math.floorMod(12 - hourOfDay, 24);
    int day = begin.getDayOfWeek().getValue();
    for (int h = 0; h < n; h++) {
      work[h] = day <= WORKING_DAYS && hourOfDay >= WORK_FROM && hourOfDay < WORK_TO;
      boolean stands = load[h] <= 0;
      edge[h] =
          stands
              ? (h > 0 && load[h - 1] > 0) || (h > 1 && load[h - 2] > 0)
              : h > 0 && load[h - 1] <= 0;
      if (++hourOfDay == 24) {
        // Clocks are put forward and back at night: looked up once a day.
        LocalDateTime local = localHours.at(hours.startEpochSecond() + 3600L * (h + 1));
        hourOfDay = local.getHour() == 23 ? -1 : local.getHour();
        day =
            hourOfDay < 0
                ? local.getDayOfWeek().plus(1).getValue()
                : local.getDayOfWeek().getValue();
      }
    }
    return new DayHours(work, edge, firstNoon);
  }

  /** Whether people work in the hour. */
  boolean work(int hour) {
    return work[hour];
  }

  /** Whether the pumps stopped within the last two hours or started in this one. */
  boolean edge(int hour) {
    return edge[hour];
  }

  /** The first noon at or after an hour, winter time or summer time. */
  int noonFrom(int hour) {
    return hour + Math.floorMod(firstNoon - hour, 24);
  }
}
