package towerledger.weather;

import java.time.Instant;
import towerledger.balance.facts.WeatherHours;
import towerledger.quantity.Span;

/**
 * The weather of a station over a span.
 *
 * @param station its code
 * @param hours the hours, gaps filled and marked
 * @param typicalYear whether they are a typical year laid over the real months: every hour then
 *     counts as filled, and figures built on it must say so
 */
public record StationWeather(String station, WeatherHours hours, boolean typicalYear) {

  /**
   * Share of a span's hours that were filled in or are not known, 0 to 1: above 0.2 it lowers the
   * month's evidence. Hours outside what was read count as not known.
   */
  public double filledShare(Span span) {
    long first = HourSeries.hourOf(span.startInclusive());
    long last = HourSeries.hourOf(span.endExclusive().minusSeconds(1));
    long start = HourSeries.hourOf(hours.start());
    long bad = 0;
    for (long hour = first; hour <= last; hour++) {
      long i = hour - start;
      if (i < 0
          || i >= hours.hours()
          || hours.filled((int) i)
          || Double.isNaN(hours.dryBulbC((int) i))) {
        bad++;
      }
    }
    return bad / (double) (last - first + 1);
  }

  static StationWeather none(String station) {
    return new StationWeather(
        station,
        new WeatherHours(Instant.EPOCH, new float[0], new float[0], new float[0], new boolean[0]),
        false);
  }
}
