package towerledger.balance;

import java.time.Instant;
import java.util.Arrays;
import java.util.Optional;
import towerledger.statistics.ChangePoint;
import towerledger.statistics.TabularCusum;

/**
 * What the days of a logged meter say of a loss that the months have shown: the hour of its onset,
 * by the likeliest change of the mean, and the day on which its sum stood out. Each day is held
 * against the model of a sound system at the level of the days before.
 */
final class LoggedDays {

  private static final int DAY = 24;

  /** Days before the stretch of the onset by which the level and its scatter are known. */
  private static final int DAYS_BEFORE = 28;

  private static final int LEAST_DAYS_BEFORE = 10;

  /** Days around the stretch of the onset in which it is looked for. */
  private static final int DAYS_AROUND = 7;

  /** Hours on either side of a day in which the hour is looked for. */
  private static final int HOURS_AROUND = 2 * DAY;

  /** Least scatter of a day, as a part of its level. */
  private static final double LEAST_SCATTER = 0.05;

  /**
   * Twice the log likelihood that a change must gain; independent normal days without any pass it
   * in a window of five weeks about once in two thousand.
   */
  private static final double LEAST_GAIN = 18;

  /**
   * Allowance and limit of the running sum, in deviations of a day. Alone, on independent normal
   * days, it would speak wrongly less than once in ten years.
   */
  private static final double ALLOWANCE = 0.75;

  private static final double LIMIT = 6;

  private final double[] logged;
  private final double[] sound;
  private final MeteredWater makeup;
  private final long startEpochSecond;

  /**
   * The days of a system.
   *
   * @param logged makeup by the hour, L; empty where nothing is logged
   * @param sound the same of a sound system of the model
   */
  LoggedDays(double[] logged, double[] sound, MeteredWater makeup, long startEpochSecond) {
    this.logged = logged;
    this.sound = sound;
    this.makeup = makeup;
    this.startEpochSecond = startEpochSecond;
  }

  /**
   * When a loss began and when it stood out.
   *
   * @param onset first hour of the loss
   * @param detected end of the day on which the sum of the days stood out; empty where none did
   */
  record Onset(Instant onset, Optional<Instant> detected) {}

  /**
   * Looks for the onset of a loss.
   *
   * @param from begin of the stretch in which the months put it, in blocks
   * @param to end of that stretch
   * @param known end of what was known, in blocks
   * @return empty where the meter is not logged around it, or no change stands out
   */
  Optional<Onset> find(double from, double to, double known) {
    int begin = hour(from) - DAYS_AROUND * DAY;
    int end = Math.min(hour(to) + DAYS_AROUND * DAY, Math.min(hour(known), logged.length));
    int before = Math.max(0, begin - DAYS_BEFORE * DAY);
    int daysBefore = (begin - before) / DAY;
    int days = (end - begin) / DAY;
    if (daysBefore < LEAST_DAYS_BEFORE
        || days < 2
        || !makeup.byInterval(
            (double) before / QuarterDays.HOURS, (double) end / QuarterDays.HOURS)) {
      return Optional.empty();
    }
    double level = sum(logged, before, begin) / Math.max(1, sum(sound, before, begin));
    double[] quiet = residuals(before, daysBefore, level);
    double mean = sum(logged, before, begin) / daysBefore;
    double scatter = Math.max(LEAST_SCATTER * mean, deviation(quiet));
    if (!(scatter > 0)) {
      return Optional.empty();
    }
    double[] values = residuals(begin, days, level);
    double[] variances = new double[days];
    Arrays.fill(variances, scatter * scatter);
    ChangePoint day = ChangePoint.find(values, variances);
    if (day.statistic() < LEAST_GAIN || day.after() <= day.before()) {
      return Optional.empty();
    }
    int onset = onsetHour(begin + day.index() * DAY, end, level);
    return Optional.of(new Onset(at(onset), detected(onset, hour(known), level, scatter)));
  }

  /** The hour within the days around the change at which the mean steps up. */
  private int onsetHour(int about, int end, double level) {
    int first = Math.max(0, about - HOURS_AROUND);
    int last = Math.min(end, about + HOURS_AROUND);
    double[] values = new double[last - first];
    for (int h = first; h < last; h++) {
      values[h - first] = logged[h] - level * sound[h];
    }
    double[] variances = new double[values.length];
    Arrays.fill(variances, 1);
    return values.length < 2 ? about : first + ChangePoint.find(values, variances).index();
  }

  /** End of the day on which the sum of what the days drew too much passes its limit. */
  private Optional<Instant> detected(int onset, int known, double level, double scatter) {
    TabularCusum sum = new TabularCusum(0, ALLOWANCE, LIMIT);
    for (int h = onset; h + DAY <= Math.min(known, logged.length); h += DAY) {
      double more = sum(logged, h, h + DAY) - level * sum(sound, h, h + DAY);
      sum.add(more / scatter);
      if (sum.upper() > LIMIT) {
        return Optional.of(at(h + DAY));
      }
    }
    return Optional.empty();
  }

  private double[] residuals(int from, int days, double level) {
    double[] residuals = new double[days];
    for (int d = 0; d < days; d++) {
      int h = from + d * DAY;
      residuals[d] = sum(logged, h, h + DAY) - level * sum(sound, h, h + DAY);
    }
    return residuals;
  }

  private static double deviation(double[] values) {
    double square = 0;
    for (double value : values) {
      square += value * value;
    }
    return Math.sqrt(square / values.length);
  }

  private static double sum(double[] values, int from, int to) {
    double sum = 0;
    for (int h = from; h < to; h++) {
      sum += values[h];
    }
    return sum;
  }

  private static int hour(double block) {
    return (int) Math.round(block * QuarterDays.HOURS);
  }

  private Instant at(int hour) {
    return Instant.ofEpochSecond(startEpochSecond + 3600L * hour);
  }
}
