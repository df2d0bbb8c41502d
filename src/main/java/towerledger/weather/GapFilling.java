package towerledger.weather;

import java.time.Instant;
import java.time.LocalDateTime;
import java.time.ZoneOffset;
import java.util.Arrays;
import java.util.HashMap;
import java.util.Map;
import towerledger.balance.facts.WeatherHours;
import towerledger.psychrometrics.HumidityRatio;
import towerledger.psychrometrics.MoistAir;
import towerledger.psychrometrics.StandardAtmosphere;

/**
 * Fills the hours a station missed. Gaps of up to three hours are interpolated between their
 * neighbours. In longer ones each hour takes the mean of the station's own hours of the same
 * calendar month and hour of day (UTC): of that month and earlier years where these hold at least
 * five, so that later weather does not alter a month already reckoned; else of all years. Where the
 * station has not even those, the hour stays unknown. Filled hours are marked.
 *
 * <p>Pressure alone is filled without a mark: interpolated, else the standard atmosphere at the
 * elevation, else the mean of the record; a whole hectopascal moves evaporation by less than a
 * thousandth.
 */
final class GapFilling {

  /** Longest gap that is interpolated, hours. */
  static final int INTERPOLATED_HOURS = 3;

  /** Fewest hours that make a normal. */
  static final int LEAST_OF_A_NORMAL = 5;

  private final HourSeries record;
  private final Map<Integer, float[][]> normalsByMonth = new HashMap<>();
  private final double assumedPa;

  /**
   * Filling for a record.
   *
   * @param record all hours of the station
   * @param assumedPa pressure where none is known nearby, NaN to take the record's mean
   */
  GapFilling(HourSeries record, double assumedPa) {
    this.record = record;
    this.assumedPa = assumedPa;
  }

  /**
   * The hours of a span, filled.
   *
   * @param firstHour hours since 1970 UTC
   * @param hours how many; they may reach beyond the record on either side
   */
  WeatherHours fill(long firstHour, int hours) {
    float[] dry = new float[hours];
    float[] wet = new float[hours];
    float[] pressure = new float[hours];
    boolean[] filled = new boolean[hours];
    for (int i = 0; i < hours; i++) {
      long at = firstHour + i - record.firstHour;
      boolean inside = at >= 0 && at < record.hours();
      int j = inside ? Math.toIntExact(at) : 0;
      boolean observed = inside && record.observed(j);
      dry[i] = observed ? record.dryBulbC[j] : Float.NaN;
      wet[i] = observed ? record.wetBulbC[j] : Float.NaN;
      pressure[i] = inside ? record.pressurePa[j] : Float.NaN;
    }
    fillTemperatures(firstHour, dry, wet, filled);
    fillPressures(pressure);
    for (int i = 0; i < hours; i++) {
      if (filled[i]) {
        wet[i] = possible(dry[i], wet[i], pressure[i]);
      }
    }
    return new WeatherHours(Instant.ofEpochSecond(firstHour * 3600), dry, wet, pressure, filled);
  }

  /** Means of possible pairs need not be one: never drier than air without vapour. */
  private static float possible(float dry, float wet, float pressure) {
    double pascals = Float.isNaN(pressure) ? StandardAtmosphere.pressurePa(0) : pressure;
    return Float.isNaN(wet) || HumidityRatio.isPossible(dry, wet, pascals)
        ? wet
        : (float) MoistAir.fromRelativeHumidity(dry, 0, pascals).wetBulbC() + 0.01f;
  }

  private void fillTemperatures(long firstHour, float[] dry, float[] wet, boolean[] filled) {
    int i = 0;
    while (i < dry.length) {
      if (!Float.isNaN(dry[i])) {
        i++;
        continue;
      }
      int from = i;
      while (i < dry.length && Float.isNaN(dry[i])) {
        i++;
      }
      // The neighbours may lie outside the span but inside the record.
      int length = gapInRecord(firstHour + from);
      if (length <= INTERPOLATED_HOURS) {
        interpolate(firstHour, from, i, dry, wet, filled);
      } else {
        takeNormals(firstHour, from, i, dry, wet, filled);
      }
    }
  }

  /** Length of the gap around an hour, as the whole record shows it. */
  private int gapInRecord(long hour) {
    long at = hour - record.firstHour;
    if (at < 0 || at >= record.hours()) {
      return Integer.MAX_VALUE;
    }
    int from = Math.toIntExact(at);
    int to = from;
    while (from >= 0 && !record.observed(from)) {
      from--;
    }
    while (to < record.hours() && !record.observed(to)) {
      to++;
    }
    return from < 0 || to == record.hours() ? Integer.MAX_VALUE : to - from - 1;
  }

  private void interpolate(
      long firstHour, int from, int to, float[] dry, float[] wet, boolean[] filled) {
    for (int i = from; i < to; i++) {
      int at = Math.toIntExact(firstHour + i - record.firstHour);
      int before = at;
      int after = at;
      while (!record.observed(before)) {
        before--;
      }
      while (!record.observed(after)) {
        after++;
      }
      float share = (at - before) / (float) (after - before);
      dry[i] = between(record.dryBulbC[before], record.dryBulbC[after], share);
      wet[i] = between(record.wetBulbC[before], record.wetBulbC[after], share);
      filled[i] = true;
    }
  }

  private static float between(float low, float high, float share) {
    return low + (high - low) * share;
  }

  private void takeNormals(
      long firstHour, int from, int to, float[] dry, float[] wet, boolean[] filled) {
    for (int i = from; i < to; i++) {
      LocalDateTime at = LocalDateTime.ofEpochSecond((firstHour + i) * 3600, 0, ZoneOffset.UTC);
      float[][] normals =
          normalsByMonth.computeIfAbsent(at.getYear() * 12 + at.getMonthValue() - 1, this::normals);
      dry[i] = normals[0][at.getHour()];
      wet[i] = normals[1][at.getHour()];
      filled[i] = !Float.isNaN(dry[i]);
    }
  }

  /** Mean dry and wet bulb of each hour of day in a calendar month. */
  private float[][] normals(int yearAndMonth) {
    float[][] upToThen = means(yearAndMonth, yearAndMonth);
    float[][] ofAllYears = means(yearAndMonth, Integer.MAX_VALUE);
    float[][] normals = new float[2][24];
    for (int h = 0; h < 24; h++) {
      boolean enough = !Float.isNaN(upToThen[0][h]);
      normals[0][h] = enough ? upToThen[0][h] : ofAllYears[0][h];
      normals[1][h] = enough ? upToThen[1][h] : ofAllYears[1][h];
    }
    return normals;
  }

  private float[][] means(int yearAndMonth, int last) {
    double[][] sums = new double[2][24];
    int[] counts = new int[24];
    int month = Math.floorMod(yearAndMonth, 12) + 1;
    LocalDateTime start = LocalDateTime.ofEpochSecond(record.firstHour * 3600, 0, ZoneOffset.UTC);
    int endYear = start.plusHours(record.hours()).getYear();
    for (int year = start.getYear(); year <= endYear; year++) {
      if (year * 12 + month - 1 > last) {
        break;
      }
      LocalDateTime first = LocalDateTime.of(year, month, 1, 0, 0);
      int from = hoursInto(first);
      int to = hoursInto(first.plusMonths(1));
      for (int i = Math.max(from, 0); i < Math.min(to, record.hours()); i++) {
        if (record.observed(i)) {
          int hour = Math.floorMod(i - from, 24);
          sums[0][hour] += record.dryBulbC[i];
          sums[1][hour] += record.wetBulbC[i];
          counts[hour]++;
        }
      }
    }
    float[][] means = new float[2][24];
    for (int h = 0; h < 24; h++) {
      boolean enough = counts[h] >= LEAST_OF_A_NORMAL;
      means[0][h] = enough ? (float) (sums[0][h] / counts[h]) : Float.NaN;
      means[1][h] = enough ? (float) (sums[1][h] / counts[h]) : Float.NaN;
    }
    return means;
  }

  private int hoursInto(LocalDateTime time) {
    return Math.toIntExact(time.toEpochSecond(ZoneOffset.UTC) / 3600 - record.firstHour);
  }

  private void fillPressures(float[] pressure) {
    int i = 0;
    while (i < pressure.length) {
      if (!Float.isNaN(pressure[i])) {
        i++;
        continue;
      }
      int from = i;
      while (i < pressure.length && Float.isNaN(pressure[i])) {
        i++;
      }
      if (from > 0 && i < pressure.length && i - from <= INTERPOLATED_HOURS) {
        for (int j = from; j < i; j++) {
          float share = (j - from + 1) / (float) (i - from + 1);
          pressure[j] = between(pressure[from - 1], pressure[i], share);
        }
      } else {
        Arrays.fill(pressure, from, i, (float) otherwise());
      }
    }
  }

  private double otherwise() {
    if (!Double.isNaN(assumedPa)) {
      return assumedPa;
    }
    double sum = 0;
    int count = 0;
    for (float value : record.pressurePa) {
      if (!Float.isNaN(value)) {
        sum += value;
        count++;
      }
    }
    return count == 0 ? Double.NaN : sum / count;
  }
}
