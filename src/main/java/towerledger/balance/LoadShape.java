package towerledger.balance;

import java.time.DayOfWeek;
import java.time.Instant;
import java.time.LocalDateTime;
import java.time.LocalTime;
import java.time.ZoneId;
import java.util.Set;
import towerledger.balance.facts.SystemAttributes;
import towerledger.balance.facts.SystemAttributes.BuildingUse;
import towerledger.balance.facts.SystemAttributes.HeatSource;
import towerledger.balance.facts.WeatherHours;

/**
 * The load of each hour as a fraction of nominal, guessed from the weather and the schedule: a
 * change-point line in the outdoor temperature times the activity of the building. All its numbers
 * are common practice, no source; evidence of heat scales it, and the multiplier calibrates it.
 */
final class LoadShape {

  /** Peak load as a fraction of the tower's nominal: towers are bought with a reserve. */
  private static final double PEAK_PART = 0.75;

  private static final double BALANCE_C = 12;
  private static final double PEAK_C = 35;
  private static final double TIME_CONSTANT_HOURS = 5;

  private LoadShape() {}

  static double[] of(
      SystemAttributes attributes, ZoneId zone, WeatherHours weather, Instant start, int hours) {
    double[] shape = new double[hours];
    double base = basePart(attributes);
    double setBack = setBack(attributes);
    boolean[] occupiedHours = occupiedHours(attributes);
    Set<DayOfWeek> occupiedDays = days(attributes);
    int offset = (int) ((start.getEpochSecond() - weather.start().getEpochSecond()) / 3600);
    LocalHours localHours = new LocalHours(zone);
    double smoothed = Double.NaN;
    double dew = 10;
    int hourOfDay = 0;
    boolean occupiedDay = false;
    boolean idle = false;
    for (int h = 0; h < hours; h++) {
      if (h % 24 == 0 || hourOfDay == 23) {
        LocalDateTime local = localHours.at(start.getEpochSecond() + 3600L * h);
        hourOfDay = local.getHour();
        occupiedDay = occupiedDays.contains(local.getDayOfWeek());
        idle = attributes.idleMonths().contains(local.getMonth());
      } else {
        hourOfDay++;
      }
      int w = offset + h;
      if (w >= 0 && w < weather.hours() && !Double.isNaN(weather.dryBulbC(w))) {
        double dry = weather.dryBulbC(w);
        smoothed = Double.isNaN(smoothed) ? dry : smoothed + (dry - smoothed) / TIME_CONSTANT_HOURS;
        double wet = weather.wetBulbC(w);
        dew = Double.isNaN(wet) ? dew : wet - 0.5 * (dry - wet);
      }
      if (idle) {
        continue;
      }
      double weatherPart =
          Double.isNaN(smoothed)
              ? 0.5 * (1 + base)
              : base
                  + (1 - base)
                      * Math.max(
                          0,
                          Math.min(
                              1.1,
                              (smoothed - BALANCE_C) / (PEAK_C - BALANCE_C)
                                  + 0.01 * Math.max(0, dew - 13)));
      double activity = occupiedDay && occupiedHours[hourOfDay] ? 1 : setBack;
      shape[h] = PEAK_PART * weatherPart * activity;
      if (shape[h] < 0.02) {
        shape[h] = 0;
      }
    }
    return shape;
  }

  private static boolean[] occupiedHours(SystemAttributes attributes) {
    LocalTime from = attributes.occupiedFrom().orElse(defaultFrom(attributes));
    LocalTime to = attributes.occupiedTo().orElse(defaultTo(attributes));
    boolean[] occupied = new boolean[24];
    for (int hour = 0; hour < occupied.length; hour++) {
      occupied[hour] = within(hour, from, to);
    }
    return occupied;
  }

  private static boolean within(int hour, LocalTime from, LocalTime to) {
    int a = from.getHour();
    int b = to.getMinute() > 0 ? to.getHour() + 1 : to.getHour();
    if (a == b) {
      return true;
    }
    return a < b ? hour >= a && hour < b : hour >= a || hour < b;
  }

  private static Set<DayOfWeek> days(SystemAttributes attributes) {
    if (!attributes.occupiedDays().isEmpty()) {
      return attributes.occupiedDays();
    }
    BuildingUse use = attributes.buildingUse().orElse(BuildingUse.OTHER);
    return use == BuildingUse.OFFICE || use == BuildingUse.SCHOOL
        ? Set.of(
            DayOfWeek.MONDAY,
            DayOfWeek.TUESDAY,
            DayOfWeek.WEDNESDAY,
            DayOfWeek.THURSDAY,
            DayOfWeek.FRIDAY)
        : Set.of(DayOfWeek.values());
  }

  private static LocalTime defaultFrom(SystemAttributes attributes) {
    return switch (attributes.buildingUse().orElse(BuildingUse.OTHER)) {
      case OFFICE, SCHOOL -> LocalTime.of(6, 0);
      case RETAIL -> LocalTime.of(9, 0);
      default -> LocalTime.of(7, 0);
    };
  }

  private static LocalTime defaultTo(SystemAttributes attributes) {
    return switch (attributes.buildingUse().orElse(BuildingUse.OTHER)) {
      case OFFICE, SCHOOL -> LocalTime.of(18, 0);
      case RETAIL -> LocalTime.of(22, 0);
      case DATA_CENTER -> LocalTime.of(7, 0);
      default -> LocalTime.of(19, 0);
    };
  }

  /** Activity outside the occupied hours. */
  private static double setBack(SystemAttributes attributes) {
    return switch (attributes.buildingUse().orElse(BuildingUse.OTHER)) {
      case OFFICE, SCHOOL, RETAIL -> 0;
      case HOSPITAL, LABORATORY -> 0.82;
      case HOTEL -> 0.78;
      case DATA_CENTER -> 1;
      case INDUSTRIAL -> 0.35;
      case OTHER -> 0.5;
    };
  }

  /** What remains on a cool day, as a fraction of peak. */
  private static double basePart(SystemAttributes attributes) {
    HeatSource source = attributes.heatSource().orElse(HeatSource.ELECTRIC_CHILLER);
    if (source == HeatSource.PROCESS || source == HeatSource.REFRIGERATION) {
      return 0.7;
    }
    return switch (attributes.buildingUse().orElse(BuildingUse.OTHER)) {
      case DATA_CENTER -> 0.75;
      case INDUSTRIAL -> 0.65;
      case HOSPITAL, LABORATORY -> 0.35;
      case HOTEL -> 0.3;
      default -> 0.2;
    };
  }
}
