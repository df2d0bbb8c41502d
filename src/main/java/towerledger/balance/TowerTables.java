package towerledger.balance;

import java.util.Collections;
import java.util.HashMap;
import java.util.IdentityHashMap;
import java.util.Map;
import java.util.Optional;
import java.util.Set;
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

  /** Memory that the hours of all stations together may take. */
  private static final long MOST_BYTES = 100_000_000;

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

  /**
   * A table at the hours of a station, where enough systems share both.
   *
   * @param first hour of the weather from which on it is wanted; the first system that is answered
   *     decides for all
   */
  synchronized Optional<ResponseSeries> find(ResponseTable table, WeatherHours weather, int first) {
    Shared shared =
        byWeather
            .computeIfAbsent(weather, hours -> new HashMap<>())
            .computeIfAbsent(table.fingerprint(), design -> new Shared());
    if (++shared.asked == SHARED_BY) {
      shared.series = alike(table, weather).or(() -> added(table, weather, first));
    }
    return shared.series;
  }

  /** The same hours, added up for another reading of the same weather. */
  private Optional<ResponseSeries> alike(ResponseTable table, WeatherHours weather) {
    for (var entry : byWeather.entrySet()) {
      Shared other = entry.getValue().get(table.fingerprint());
      if (other != null && other.series.isPresent() && entry.getKey().sameAs(weather)) {
        return other.series;
      }
    }
    return Optional.empty();
  }

  private Optional<ResponseSeries> added(ResponseTable table, WeatherHours weather, int first) {
    Set<ResponseSeries> kept = Collections.newSetFromMap(new IdentityHashMap<>());
    byWeather.values().forEach(of -> of.values().forEach(s -> s.series.ifPresent(kept::add)));
    long bytes = kept.stream().mapToLong(ResponseSeries::bytes).sum();
    long more = (long) ResponseSeries.BYTES_PER_HOUR * Math.max(0, weather.hours() - first);
    if (bytes + more > MOST_BYTES) {
      return Optional.empty();
    }
    double[] dryBulbC = new double[weather.hours()];
    double[] wetBulbC = new double[weather.hours()];
    double[] pressurePa = new double[weather.hours()];
    TowerAir.air(weather, 0, dryBulbC, wetBulbC, pressurePa);
    return ResponseSeries.of(table, dryBulbC, wetBulbC, pressurePa, first);
  }
}
