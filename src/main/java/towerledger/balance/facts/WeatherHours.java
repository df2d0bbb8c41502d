package towerledger.balance.facts;

import java.time.Instant;
import java.util.Arrays;
import towerledger.quantity.Span;

/**
 * Weather by the hour in unbroken order: hour i begins i hours after the first. An hour without
 * weather holds NaN. The arrays are kept, not copied, so that thousands of systems share one
 * station; they must not be changed afterwards.
 */
public final class WeatherHours {

  private static final long SECONDS_PER_HOUR = 3600;

  private final Instant start;
  private final float[] dryBulbC;
  private final float[] wetBulbC;
  private final float[] pressurePa;
  private final boolean[] filled;
  private final boolean typicalYear;

  /**
   * Weather of a station.
   *
   * @param start begin of the first hour, on a full hour
   * @param dryBulbC dry bulb, °C
   * @param wetBulbC wet bulb, °C
   * @param pressurePa station pressure, Pa
   * @param filled whether the hour was filled in from its neighbours or a typical year
   */
  public WeatherHours(
      Instant start, float[] dryBulbC, float[] wetBulbC, float[] pressurePa, boolean[] filled) {
    this(start, dryBulbC, wetBulbC, pressurePa, filled, false);
  }

  private WeatherHours(
      Instant start,
      float[] dryBulbC,
      float[] wetBulbC,
      float[] pressurePa,
      boolean[] filled,
      boolean typicalYear) {
    if (start.getEpochSecond() % 3600 != 0 || start.getNano() != 0) {
      throw new IllegalArgumentException(
          "weather starts at %s, not on a full hour".formatted(start));
    }
    if (wetBulbC.length != dryBulbC.length
        || pressurePa.length != dryBulbC.length
        || filled.length != dryBulbC.length) {
      throw new IllegalArgumentException(
          "weather columns differ in length: %d dry bulbs, %d wet bulbs, %d pressures, %d marks"
              .formatted(dryBulbC.length, wetBulbC.length, pressurePa.length, filled.length));
    }
    this.start = start;
    this.dryBulbC = dryBulbC;
    this.wetBulbC = wetBulbC;
    this.pressurePa = pressurePa;
    this.filled = filled;
    this.typicalYear = typicalYear;
  }

  /** The same hours as those of a typical year: each counts as filled in. */
  public WeatherHours ofTypicalYear() {
    boolean[] marks = new boolean[filled.length];
    Arrays.fill(marks, true);
    return new WeatherHours(start, dryBulbC, wetBulbC, pressurePa, marks, true);
  }

  /** Whether the hours are a typical year laid over real months. */
  public boolean typicalYear() {
    return typicalYear;
  }

  /** No weather at all. */
  public static WeatherHours none() {
    return new WeatherHours(
        Instant.EPOCH, new float[0], new float[0], new float[0], new boolean[0]);
  }

  /** Whether another reading of a station told the same, hour by hour. */
  public boolean sameAs(WeatherHours other) {
    return start.equals(other.start)
        && typicalYear == other.typicalYear
        && Arrays.equals(dryBulbC, other.dryBulbC)
        && Arrays.equals(wetBulbC, other.wetBulbC)
        && Arrays.equals(pressurePa, other.pressurePa)
        && Arrays.equals(filled, other.filled);
  }

  public Instant start() {
    return start;
  }

  public int hours() {
    return dryBulbC.length;
  }

  /** Dry bulb of an hour, °C; NaN where not known. */
  public double dryBulbC(int hour) {
    return dryBulbC[hour];
  }

  /** Wet bulb of an hour, °C; NaN where not known. */
  public double wetBulbC(int hour) {
    return wetBulbC[hour];
  }

  /** Station pressure of an hour, Pa; NaN where not known. */
  public double pressurePa(int hour) {
    return pressurePa[hour];
  }

  /** Whether the hour was filled in rather than observed. */
  public boolean filled(int hour) {
    return filled[hour];
  }

  /**
   * Share of the hours of a span, 0–1, whose weather was filled in or is not known; hours outside
   * the record are not known.
   */
  public double filledShare(Span span) {
    long begin = Math.floorDiv(start.getEpochSecond(), SECONDS_PER_HOUR);
    long first = Math.floorDiv(span.startInclusive().getEpochSecond(), SECONDS_PER_HOUR) - begin;
    long end = Math.floorDiv(span.endExclusive().getEpochSecond(), SECONDS_PER_HOUR) - begin;
    long bad = 0;
    for (long h = first; h < end; h++) {
      if (h < 0 || h >= hours() || filled[(int) h] || Double.isNaN(dryBulbC[(int) h])) {
        bad++;
      }
    }
    return bad / (double) (end - first);
  }
}
