package towerledger.weather;

import static org.assertj.core.api.Assertions.assertThat;
import static org.assertj.core.api.Assertions.within;

import java.time.Instant;
import java.time.OffsetDateTime;
import java.time.ZoneOffset;
import java.util.Optional;
import java.util.OptionalDouble;
import org.junit.jupiter.api.Test;
import org.springframework.beans.factory.annotation.Autowired;
import org.springframework.jdbc.core.simple.JdbcClient;
import towerledger.account.Outcome;
import towerledger.quantity.Span;

/** Stations and their hours in the database. */
abstract class StationsCases {

  private static final Instant START = Instant.parse("2024-07-01T00:00:00Z");

  @Autowired Stations stations;
  @Autowired WeatherRecords records;
  @Autowired JdbcClient jdbc;

  @Test
  void stationIsUpdatedAndNeverForgetsWhatIsKnown() {
    assertThat(stations.put(station("STC-A", 40, -100, "epw"))).isEqualTo(Outcome.ADDED);
    assertThat(stations.put(station("STC-A", 40, -100, "epw"))).isEqualTo(Outcome.UNCHANGED);
    assertThat(
            stations.put(
                new Station(
                    "STC-A",
                    Optional.of("Airport"),
                    OptionalDouble.empty(),
                    OptionalDouble.empty(),
                    OptionalDouble.of(250),
                    "epw",
                    false)))
        .isEqualTo(Outcome.CHANGED);

    Station kept = stations.find("STC-A").orElseThrow();
    assertThat(kept.latitudeDeg()).hasValue(40);
    assertThat(kept.elevationM()).hasValue(250);
    assertThat(kept.name()).contains("Airport");
  }

  /** A degree of latitude is 111.2 km on a sphere of 6371 km. */
  @Test
  void nearestStationComesFirst() {
    stations.put(station("STC-FAR", -61, 10, "csv"));
    stations.put(station("STC-NEAR", -60.5, 10, "csv"));

    var near = stations.listNearest(-60, 10, 2);

    assertThat(near).extracting(n -> n.station().code()).containsExactly("STC-NEAR", "STC-FAR");
    assertThat(near.get(0).kilometres()).isCloseTo(55.6, within(0.1));
    assertThat(near.get(1).kilometres()).isCloseTo(111.2, within(0.1));
  }

  @Test
  void shortGapsAreInterpolatedMarkedAndCounted() {
    // given: ten hours, of which two in a row are missing
    stations.put(station("STC-GAP", 0, 0, "csv"));
    for (int hour = 0; hour < 10; hour++) {
      if (hour != 4 && hour != 5) {
        hour("STC-GAP", hour, 20 + hour, 10);
      }
    }
    Span span = Span.of(START, START.plusSeconds(10 * 3600));

    StationWeather weather = records.open().get("STC-GAP", span, OptionalDouble.of(100));

    // an hour before the record is told beside the span
    assertThat(weather.hours().start()).isEqualTo(START.minusSeconds(3600));
    assertThat(weather.hours().hours()).isEqualTo(11);
    assertThat(weather.hours().dryBulbC(5)).isCloseTo(24, within(0.01));
    assertThat(weather.hours().dryBulbC(6)).isCloseTo(25, within(0.01));
    assertThat(weather.hours().filled(5)).isTrue();
    assertThat(weather.hours().filled(4)).isFalse();
    assertThat(weather.filledShare(span)).isCloseTo(0.2, within(1e-9));
  }

  @Test
  void stationThatIsNotOnFileHasNoHours() {
    Span span = Span.of(START, START.plusSeconds(3600));

    assertThat(records.open().get("STC-NONE", span, OptionalDouble.empty()).filledShare(span))
        .isEqualTo(1);
  }

  private static Station station(String code, double latitude, double longitude, String source) {
    return new Station(
        code,
        Optional.empty(),
        OptionalDouble.of(latitude),
        OptionalDouble.of(longitude),
        OptionalDouble.empty(),
        source,
        false);
  }

  private void hour(String station, int hour, double dryBulbC, double dewPointC) {
    jdbc.sql(
            "INSERT INTO weather_hour (station, hour_start, dry_bulb_c, dew_point_c) VALUES (?, ?, ?, ?)")
        .param(station)
        .param(OffsetDateTime.ofInstant(START.plusSeconds(3600L * hour), ZoneOffset.UTC))
        .param(dryBulbC)
        .param(dewPointC)
        .update();
  }
}
