package towerledger.weather;

import java.sql.ResultSet;
import java.sql.SQLException;
import java.time.Clock;
import java.time.OffsetDateTime;
import java.time.ZoneOffset;
import java.util.Comparator;
import java.util.LinkedHashMap;
import java.util.List;
import java.util.Map;
import java.util.Optional;
import java.util.OptionalDouble;
import org.jspecify.annotations.Nullable;
import org.springframework.context.ApplicationEventPublisher;
import org.springframework.jdbc.core.simple.JdbcClient;
import org.springframework.stereotype.Service;
import org.springframework.transaction.annotation.Transactional;
import towerledger.account.Actor;
import towerledger.account.ChangeHistory;
import towerledger.account.EmptyValues;
import towerledger.account.Outcome;
import towerledger.site.Dependents;
import towerledger.site.FactsChanged;

/** The weather stations on file. */
@Service
@Transactional(readOnly = true)
public class Stations {

  private static final String COLUMNS =
      """
      SELECT code, name, latitude_deg, longitude_deg, elevation_m, source, typical_year
      FROM weather_station""";

  private final JdbcClient jdbc;
  private final ChangeHistory history;
  private final Dependents dependents;
  private final ApplicationEventPublisher events;
  private final Clock clock;

  Stations(
      JdbcClient jdbc,
      ChangeHistory history,
      Dependents dependents,
      ApplicationEventPublisher events,
      Clock clock) {
    this.jdbc = jdbc;
    this.history = history;
    this.dependents = dependents;
    this.events = events;
    this.clock = clock;
  }

  /**
   * A station and how far it is.
   *
   * @param station the station
   * @param kilometres great-circle distance
   */
  public record Nearby(Station station, double kilometres) {}

  /** Every station by code. */
  public List<Station> list() {
    return jdbc.sql(COLUMNS + " ORDER BY code").query((row, number) -> station(row)).list();
  }

  /** The station with a code. */
  public Optional<Station> find(String code) {
    return jdbc.sql(COLUMNS + " WHERE code = ?")
        .param(code)
        .query((row, number) -> station(row))
        .optional();
  }

  /**
   * The stations nearest to a place, nearest first: what is offered to a site. Observing stations
   * come with typical years among them; each says which it is.
   *
   * @param latitudeDeg latitude of the place
   * @param longitudeDeg longitude of the place
   * @param most how many at most
   */
  public List<Nearby> listNearest(double latitudeDeg, double longitudeDeg, int most) {
    return list().stream()
        .filter(Station::hasPlace)
        .map(
            station ->
                new Nearby(
                    station,
                    GreatCircle.kilometres(
                        latitudeDeg,
                        longitudeDeg,
                        station.latitudeDeg().orElseThrow(),
                        station.longitudeDeg().orElseThrow())))
        .sorted(
            Comparator.comparingDouble(Nearby::kilometres)
                .thenComparing(nearby -> nearby.station().code()))
        .limit(most)
        .toList();
  }

  /**
   * Adds a station or updates what is known of it, as somebody described it; the change goes into
   * the history. A new elevation is a new pressure of the air: months that take it are reckoned
   * anew.
   */
  @Transactional
  public Outcome describe(Actor actor, Station station, EmptyValues empty) {
    Station before = find(station.code()).orElse(null);
    Outcome outcome = put(station, empty);
    if (outcome == Outcome.UNCHANGED) {
      return outcome;
    }
    Station after = find(station.code()).orElseThrow();
    history.record(
        actor,
        before == null ? "added" : "changed",
        "weather station",
        station.code(),
        null,
        before == null ? null : kept(before),
        kept(after));
    OptionalDouble known = before == null ? OptionalDouble.empty() : before.elevationM();
    if (!after.elevationM().equals(known)) {
      List<FactsChanged.Touched> touched =
          dependents.onStation(station.code()).stream()
              .map(system -> new FactsChanged.Touched(system.systemId(), null, null))
              .toList();
      if (!touched.isEmpty()) {
        events.publishEvent(
            new FactsChanged(touched, "weather station " + station.code() + " changed"));
      }
    }
    return outcome;
  }

  private static Map<String, Object> kept(Station station) {
    Map<String, Object> kept = new LinkedHashMap<>();
    station.name().ifPresent(name -> kept.put("name", name));
    station.latitudeDeg().ifPresent(value -> kept.put("latitudeDeg", value));
    station.longitudeDeg().ifPresent(value -> kept.put("longitudeDeg", value));
    station.elevationM().ifPresent(value -> kept.put("elevationM", value));
    return kept;
  }

  /** Adds a station or updates what is known of it; not known never wipes out known. */
  @Transactional
  public Outcome put(Station station) {
    return put(station, EmptyValues.KEEP);
  }

  private Outcome put(Station station, EmptyValues empty) {
    Optional<Station> before = find(station.code());
    if (before.isEmpty()) {
      jdbc.sql(
              """
              INSERT INTO weather_station
                (code, name, latitude_deg, longitude_deg, elevation_m, source, typical_year,
                 created_at)
              VALUES (:code, :name, :latitude, :longitude, :elevation, :source, :typical, :now)""")
          .param("code", station.code())
          .param("name", station.name().orElse(null))
          .param("latitude", orNull(station.latitudeDeg()))
          .param("longitude", orNull(station.longitudeDeg()))
          .param("elevation", orNull(station.elevationM()))
          .param("source", station.source())
          .param("typical", station.typicalYear())
          .param("now", OffsetDateTime.ofInstant(clock.instant(), ZoneOffset.UTC))
          .update();
      return Outcome.ADDED;
    }
    Station known = before.get();
    Station after = empty.over(known, station, Stations::keeping);
    if (after.equals(known)) {
      return Outcome.UNCHANGED;
    }
    jdbc.sql(
            """
            UPDATE weather_station
            SET name = :name, latitude_deg = :latitude, longitude_deg = :longitude,
              elevation_m = :elevation, source = :source, typical_year = :typical
            WHERE code = :code""")
        .param("name", after.name().orElse(null))
        .param("latitude", orNull(after.latitudeDeg()))
        .param("longitude", orNull(after.longitudeDeg()))
        .param("elevation", orNull(after.elevationM()))
        .param("source", after.source())
        .param("typical", after.typicalYear())
        .param("code", after.code())
        .update();
    return Outcome.CHANGED;
  }

  private static Station keeping(Station known, Station newer) {
    return new Station(
        known.code(),
        newer.name().or(known::name),
        or(newer.latitudeDeg(), known.latitudeDeg()),
        or(newer.longitudeDeg(), known.longitudeDeg()),
        or(newer.elevationM(), known.elevationM()),
        newer.source(),
        newer.typicalYear());
  }

  private static OptionalDouble or(OptionalDouble newer, OptionalDouble older) {
    return newer.isPresent() ? newer : older;
  }

  private static @Nullable Double orNull(OptionalDouble value) {
    return value.isPresent() ? value.getAsDouble() : null;
  }

  private static Station station(ResultSet row) throws SQLException {
    return new Station(
        row.getString("code"),
        Optional.ofNullable(row.getString("name")),
        number(row, "latitude_deg"),
        number(row, "longitude_deg"),
        number(row, "elevation_m"),
        row.getString("source"),
        row.getBoolean("typical_year"));
  }

  private static OptionalDouble number(ResultSet row, String column) throws SQLException {
    double value = row.getDouble(column);
    return row.wasNull() ? OptionalDouble.empty() : OptionalDouble.of(value);
  }
}
