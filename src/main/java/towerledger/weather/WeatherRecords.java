package towerledger.weather;

import java.time.Instant;
import java.time.OffsetDateTime;
import java.time.ZoneOffset;
import java.util.ArrayList;
import java.util.HashMap;
import java.util.LinkedHashMap;
import java.util.List;
import java.util.Map;
import java.util.Objects;
import java.util.Optional;
import java.util.OptionalDouble;
import javax.sql.DataSource;
import org.springframework.jdbc.core.JdbcTemplate;
import org.springframework.stereotype.Service;
import org.springframework.transaction.PlatformTransactionManager;
import org.springframework.transaction.support.TransactionTemplate;
import towerledger.balance.facts.WeatherHours;
import towerledger.quantity.Span;

/**
 * Reads the hours of weather stations. Open a {@link Reading} for a piece of work that asks for the
 * same stations again and again: it reads each but once. It is not kept beyond that work, so that
 * new hours are never overlooked, whichever node took them in.
 */
@Service
public class WeatherRecords {

  private static final int ROWS_A_FETCH = 5000;

  /** Fourteen bytes each. */
  private static final long MOST_HOURS_KEPT = 2_000_000;

  private static final String HOURS =
      """
      SELECT CAST(EXTRACT(EPOCH FROM hour_start) AS BIGINT), dry_bulb_c, wet_bulb_c, dew_point_c,
        relative_humidity_percent, pressure_kpa
      FROM weather_hour
      WHERE station = ? AND hour_start < ?""";

  private final Stations stations;
  private final JdbcTemplate jdbc;
  private final TransactionTemplate transaction;

  WeatherRecords(
      Stations stations, DataSource dataSource, PlatformTransactionManager transactions) {
    this.stations = stations;
    this.jdbc = new JdbcTemplate(dataSource);
    this.jdbc.setFetchSize(ROWS_A_FETCH);
    this.transaction = new TransactionTemplate(transactions);
    this.transaction.setReadOnly(true);
  }

  /** A reading that remembers the stations it has read. For one thread. */
  public Reading open() {
    return new Reading();
  }

  /**
   * The stations read so far in one piece of work, those used last first to stay; at most {@value
   * #MOST_HOURS_KEPT} hours of them.
   */
  public final class Reading {

    private final Map<Key, StationWeather> known = new LinkedHashMap<>(16, 0.75f, true);
    private final Map<String, Optional<Station>> described = new HashMap<>();
    private long kept;

    private Reading() {}

    private record Key(String station, long endHour, double elevationM) {}

    /**
     * The weather of a station.
     *
     * @param code its code; a station that is not on file has no hours
     * @param span hours that touch it are told, and earlier ones where they are known; only hours
     *     before its end are looked at, so that the same span gives the same hours whatever is
     *     observed later, but for what {@code docs} say of gaps in the first year
     * @param siteElevationM elevation of the site, taken for the pressure where the station's own
     *     elevation is not known
     */
    public StationWeather get(String code, Span span, OptionalDouble siteElevationM) {
      Station station = described.computeIfAbsent(code, stations::find).orElse(null);
      if (station == null) {
        return StationWeather.none(code);
      }
      double elevation = station.elevationM().orElse(siteElevationM.orElse(Double.NaN));
      var key = new Key(code, HourSeries.hourOf(span.endExclusive().minusSeconds(1)), elevation);
      StationWeather before = known.get(key);
      if (before != null && reaches(before, span)) {
        return before;
      }
      StationWeather weather = read(station, span, elevation);
      known.put(key, weather);
      kept += weather.hours().hours() - (before == null ? 0 : before.hours().hours());
      forget();
      return weather;
    }

    private static boolean reaches(StationWeather weather, Span span) {
      return weather.hours().hours() == 0
          || !weather.hours().start().isAfter(span.startInclusive());
    }

    private void forget() {
      var oldest = known.values().iterator();
      while (kept > MOST_HOURS_KEPT && known.size() > 1) {
        kept -= oldest.next().hours().hours();
        oldest.remove();
      }
    }
  }

  private StationWeather read(Station station, Span span, double elevationM) {
    long first = HourSeries.hourOf(span.startInclusive());
    int hours = Math.toIntExact(HourSeries.hourOf(span.endExclusive().minusSeconds(1)) - first + 1);
    double assumedPa = HourSeries.standardPressurePa(elevationM);
    if (station.typicalYear()) {
      HourSeries year = HourSeries.empty(HourSeries.hourOf(TypicalYear.START), TypicalYear.HOURS);
      Instant endOfYear = TypicalYear.START.plusSeconds(3600L * TypicalYear.HOURS);
      rows(station.code(), endOfYear).forEach(row -> row.into(year, assumedPa));
      HourSeries laid = HourSeries.ofTypicalYear(year, first, hours);
      WeatherHours filled = new GapFilling(laid, assumedPa).fill(first, hours);
      return new StationWeather(station.code(), filled.ofTypicalYear(), true);
    }
    List<Row> rows = rows(station.code(), span.endExclusive());
    if (rows.isEmpty()) {
      return StationWeather.none(station.code());
    }
    long earliest = rows.stream().mapToLong(row -> row.hour).min().getAsLong();
    long latest = rows.stream().mapToLong(row -> row.hour).max().getAsLong();
    HourSeries record = HourSeries.empty(earliest, Math.toIntExact(latest - earliest + 1));
    rows.forEach(row -> row.into(record, assumedPa));
    // From an hour before the record on, whatever the span: so the first pressure, after which
    // towers are designed, is one and the same.
    long start = Math.min(first, earliest - 1);
    return new StationWeather(
        station.code(),
        new GapFilling(record, assumedPa).fill(start, Math.toIntExact(first - start) + hours),
        false);
  }

  /** One stored hour; what is not known is NaN. */
  private record Row(long hour, double dry, double wet, double dew, double humidity, double kpa) {

    void into(HourSeries series, double assumedPa) {
      series.put(hour, dry, wet, dew, humidity, kpa * 1000, assumedPa);
    }
  }

  private List<Row> rows(String station, Instant before) {
    return Objects.requireNonNull(
        transaction.execute(
            status -> {
              var rows = new ArrayList<Row>();
              jdbc.query(
                  HOURS,
                  row -> {
                    rows.add(
                        new Row(
                            Math.floorDiv(row.getLong(1), 3600L),
                            row.getDouble(2),
                            orNaN(row.getDouble(3), row.wasNull()),
                            orNaN(row.getDouble(4), row.wasNull()),
                            orNaN(row.getDouble(5), row.wasNull()),
                            orNaN(row.getDouble(6), row.wasNull())));
                  },
                  station,
                  OffsetDateTime.ofInstant(before, ZoneOffset.UTC));
              return rows;
            }));
  }

  private static double orNaN(double value, boolean wasNull) {
    return wasNull ? Double.NaN : value;
  }
}
