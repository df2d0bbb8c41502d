package towerledger.balance;

import java.util.HashMap;
import java.util.Map;
import java.util.Optional;
import java.util.WeakHashMap;
import java.util.function.Function;
import towerledger.balance.facts.WeatherHours;
import towerledger.thermal.ResponseSeries;
import towerledger.thermal.ResponseTable;
import towerledger.thermal.TowerDesign;

/**
 * Response tables, and what they say at the hours of stations that several systems share. May be
 * asked from several threads.
 */
final class TowerTables {

  /** Systems of one station and design from which on its hours are added up once for all. */
  private static final int SHARED_BY = 3;

  /** Memory that the hours of all stations together may take, about 100 MB. */
  private static final int MOST_HOURS = 80_000;

  private final Function<TowerDesign, ResponseTable> tables;

  /** By station's weather and design; kept for as long as somebody holds the weather. */
  private final Map<WeatherHours, Map<String, Shared>> byWeather = new WeakHashMap<>();

  /** One design at one station: how often it was asked for, and its hours once that pays. */
  private static final class Shared {
    int asked;
    Optional<ResponseSeries> series = Optional.empty();
  }

  /**
   * Tables that are computed or kept elsewhere.
   *
   * @param tables table of a design
   */
  TowerTables(Function<TowerDesign, ResponseTable> tables) {
    this.tables = tables;
  }

  /** The table of a design. */
  ResponseTable of(TowerDesign design) {
    return tables.apply(design);
  }

  /** The air of a station from an hour of its weather on. */
  TowerAir airAt(WeatherHours weather, int offset) {
    return new TowerAir(this, weather, offset);
  }

  /** A table at the hours of a station, where enough systems share both. */
  synchronized Optional<ResponseSeries> find(ResponseTable table, WeatherHours weather) {
    Shared shared =
        byWeather
            .computeIfAbsent(weather, hours -> new HashMap<>())
            .computeIfAbsent(table.fingerprint(), design -> new Shared());
    if (++shared.asked == SHARED_BY && hoursKept() + weather.hours() <= MOST_HOURS) {
      double[] dryBulbC = new double[weather.hours()];
      double[] wetBulbC = new double[weather.hours()];
      double[] pressurePa = new double[weather.hours()];
      TowerAir.air(weather, 0, dryBulbC, wetBulbC, pressurePa);
      shared.series = ResponseSeries.of(table, dryBulbC, wetBulbC, pressurePa);
    }
    return shared.series;
  }

  private int hoursKept() {
    int kept = 0;
    for (var entry : byWeather.entrySet()) {
      for (Shared shared : entry.getValue().values()) {
        kept += shared.series.isPresent() ? entry.getKey().hours() : 0;
      }
    }
    return kept;
  }
}
