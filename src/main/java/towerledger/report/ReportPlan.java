package towerledger.report;

import java.time.Instant;
import java.time.YearMonth;
import java.time.ZoneId;
import java.time.ZonedDateTime;
import org.jspecify.annotations.Nullable;
import towerledger.account.UnitPreference;

/**
 * When and how a customer gets the monthly report.
 *
 * @param customerId key of the customer
 * @param active whether reports are written by themselves
 * @param dayOfMonth day of the following month, 1 to 28; a month closes on its tenth day after
 * @param hourOfDay hour of that day, 0 to 23
 * @param zone where day and hour are told
 * @param language language tag of its words
 * @param units units of its figures
 * @param onlyNotable whether months in which all is well are passed over
 * @param held whether somebody looks at it before it is sent
 * @param manager who signs cover notes; null for nobody
 * @param replyTo where answers go; null for the program's own setting
 * @param activeSince months due before it are not caught up with
 */
public record ReportPlan(
    long customerId,
    boolean active,
    int dayOfMonth,
    int hourOfDay,
    ZoneId zone,
    String language,
    UnitPreference units,
    boolean onlyNotable,
    boolean held,
    @Nullable String manager,
    @Nullable String replyTo,
    Instant activeSince) {

  /** A month is closed ten days after its end; the twelfth leaves a day of grace. */
  private static final int USUAL_DAY = 12;

  private static final int USUAL_HOUR = 7;

  public ReportPlan {
    if (dayOfMonth < 1 || dayOfMonth > 28) {
      throw new ReportException(
          "day %d of the month; choose 1 to 28, which every month has".formatted(dayOfMonth));
    }
    if (hourOfDay < 0 || hourOfDay > 23) {
      throw new ReportException("hour %d of the day; choose 0 to 23".formatted(hourOfDay));
    }
  }

  /** What holds until somebody chooses: nothing is sent, and what is prepared is held. */
  static ReportPlan unset(long customerId, ZoneId zone) {
    return new ReportPlan(
        customerId,
        false,
        USUAL_DAY,
        USUAL_HOUR,
        zone,
        "en",
        UnitPreference.US,
        false,
        true,
        null,
        null,
        Instant.EPOCH);
  }

  /** When the report of a month is due. */
  public Instant due(YearMonth month) {
    return month.plusMonths(1).atDay(dayOfMonth).atTime(hourOfDay, 0).atZone(zone).toInstant();
  }

  /** The newest month whose report is due by an instant. */
  public YearMonth newestDue(Instant now) {
    YearMonth month = YearMonth.from(ZonedDateTime.ofInstant(now, zone)).minusMonths(1);
    return due(month).isAfter(now) ? month.minusMonths(1) : month;
  }

  /** The month whose report comes next. */
  public YearMonth nextMonth(Instant now) {
    return newestDue(now).plusMonths(1);
  }
}
