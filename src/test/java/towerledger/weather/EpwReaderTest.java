package towerledger.weather;

import static org.assertj.core.api.Assertions.assertThat;
import static org.assertj.core.api.Assertions.assertThatThrownBy;
import static org.assertj.core.api.Assertions.within;

import java.io.IOException;
import java.io.StringReader;
import java.nio.charset.StandardCharsets;
import java.nio.file.Files;
import java.nio.file.Path;
import java.time.Instant;
import java.util.ArrayList;
import java.util.List;
import java.util.Map;
import java.util.TreeMap;
import org.apache.commons.csv.CSVFormat;
import org.apache.commons.csv.CSVParser;
import org.apache.commons.csv.CSVRecord;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.ValueSource;
import towerledger.SharedReference;
import towerledger.psychrometrics.HumidityRatio;
import towerledger.psychrometrics.SaturationPressure;

/**
 * EPW files against wet-bulb statistics worked out apart from this project (reference/
 * epw_checks.csv). The files themselves are public TMY3 data and are not shipped.
 */
class EpwReaderTest {

  static final class Collected implements WeatherSink {
    final List<WeatherRow> rows = new ArrayList<>();
    final List<Long> missing = new ArrayList<>();
    final Map<Long, String> refused = new TreeMap<>();

    @Override
    public void hour(long line, WeatherRow row) {
      rows.add(row);
    }

    @Override
    public void missing(long line) {
      missing.add(line);
    }

    @Override
    public void refused(long line, String raw, String reason) {
      refused.put(line, reason);
    }
  }

  private static CSVRecord check(String site) throws IOException {
    var format =
        CSVFormat.DEFAULT
            .builder()
            .setHeader()
            .setSkipHeaderRecord(true)
            .setCommentMarker('#')
            .get();
    try (var in = EpwReaderTest.class.getResourceAsStream("/reference/epw_checks.csv");
        var parser = CSVParser.parse(in, StandardCharsets.UTF_8, format)) {
      return parser.stream().filter(r -> r.get("site").equals(site)).findFirst().orElseThrow();
    }
  }

  private static double wetBulb(WeatherRow row) {
    return HourSeries.wetBulb(
        row.dryBulbC(),
        Double.NaN,
        row.dewPointC().orElse(Double.NaN),
        row.relativeHumidityPercent().orElse(Double.NaN),
        row.pressurePa().orElseThrow());
  }

  @ParameterizedTest
  @ValueSource(strings = {"atlanta", "chicago"})
  void givesThePublishedHoursAndTheirWetBulbs(String site) throws IOException {
    Path file = SharedReference.fileOrSkip("weather/" + site + "_tmy3.epw");
    CSVRecord check = check(site);
    var collected = new Collected();
    Station station;
    try (var reader = Files.newBufferedReader(file)) {
      station = EpwReader.read("EPW-" + site, reader, collected);
    }
    int utcOffset = site.equals("atlanta") ? 5 : 6;

    assertThat(collected.refused).isEmpty();
    assertThat(collected.rows).hasSize(Integer.parseInt(check.get("hours")));
    assertThat(collected.rows.stream().map(WeatherRow::hourStart).distinct()).hasSize(8760);
    assertThat(station.typicalYear()).isTrue();
    assertThat(mean(collected, "dry")).isCloseTo(number(check, "Tdb_mean_C"), within(0.001));
    assertThat(collected.rows.stream().mapToDouble(r -> r.pressurePa().orElseThrow()).average())
        .hasValueCloseTo(number(check, "P_mean_Pa"), within(0.1));
    assertThat(mean(collected, "wet"))
        .isCloseTo(number(check, "Twb_mean_from_dewpoint_C"), within(0.002));
    assertThat(collected.rows.stream().mapToDouble(EpwReaderTest::wetBulb).max())
        .hasValueCloseTo(number(check, "Twb_max_C"), within(0.006));
    // Hour 1 of 1 January and hour 15 of 1 July, local standard time, hours named by their end.
    assertThat(wetBulb(at(collected, Instant.parse("2001-01-01T00:00:00Z"), utcOffset)))
        .isCloseTo(number(check, "Twb_first_hour_C"), within(0.001));
    WeatherRow july = at(collected, Instant.parse("2001-07-01T14:00:00Z"), utcOffset);
    assertThat(july.dryBulbC()).isEqualTo(number(check, "Tdb_Jul1_15h_C"));
    assertThat(wetBulb(july)).isCloseTo(number(check, "Twb_Jul1_15h_C"), within(0.001));
    // Just around 0 °C the same air has a wet bulb over water above 0 and one over ice below
    // (equations 33 and 35 do not meet); here water is taken, the bisection behind the count takes
    // either. So the count lies between both conventions.
    assertThat(Long.parseLong(check.get("hours_Twb_below_0")))
        .isBetween(
            collected.rows.stream().filter(r -> wetBulb(r) < 0).count(),
            collected.rows.stream().filter(EpwReaderTest::frozenIfOverIce).count());
  }

  private static boolean frozenIfOverIce(WeatherRow row) {
    double pressure = row.pressurePa().orElseThrow();
    double vapour =
        SaturationPressure.pascals(Math.min(row.dewPointC().orElseThrow(), row.dryBulbC()));
    double saturatedAtZero = HumidityRatio.saturated(0, pressure);
    // Equation 35 at a wet bulb of 0 °C.
    double wouldFreezeBelow =
        (2830 * saturatedAtZero - 1.006 * row.dryBulbC()) / (2830 + 1.86 * row.dryBulbC());
    return row.dryBulbC() < 0
        || HumidityRatio.ofVapourPressure(vapour, pressure) < wouldFreezeBelow;
  }

  private static WeatherRow at(Collected collected, Instant localStandard, int utcOffset) {
    Instant utc = localStandard.plusSeconds(3600L * utcOffset);
    return collected.rows.stream().filter(r -> r.hourStart().equals(utc)).findFirst().orElseThrow();
  }

  private static double mean(Collected collected, String which) {
    return collected.rows.stream()
        .mapToDouble(r -> which.equals("dry") ? r.dryBulbC() : wetBulb(r))
        .average()
        .orElseThrow();
  }

  private static double number(CSVRecord record, String column) {
    return Double.parseDouble(record.get(column));
  }

  private static String epw(String... hours) {
    return "LOCATION,Brookfield,XX,YYY,own,000000,41.5,-88.0,-6.0,210.0\n"
        + "DESIGN CONDITIONS,0\nTYPICAL/EXTREME PERIODS,0\nGROUND TEMPERATURES,0\n"
        + "HOLIDAYS/DAYLIGHT SAVINGS,No,0,0,0\nCOMMENTS 1,\nCOMMENTS 2,\n"
        + "DATA PERIODS,1,1,Data,Sunday, 1/ 1,12/31\n"
        + String.join("\n", hours);
  }

  @Test
  void takesHumidityWhereTheDewPointIsMissing() throws IOException {
    var collected = new Collected();

    Station station =
        EpwReader.read(
            "BROOK",
            new StringReader(
                epw(
                    "1999,3,4,13,60,flags,12.5,99.9,55,98900,0",
                    "1999,3,4,14,60,flags,99.9,5.0,55,98900,0",
                    "1999,3,4,15,60,flags,13.0,5.0,55,999999,0",
                    "1999,12,31,24,60,flags,1.0,-5.0,55,98900,0")),
            collected);

    assertThat(station.elevationM()).hasValue(210);
    assertThat(station.longitudeDeg()).hasValue(-88);
    assertThat(collected.rows).hasSize(3);
    assertThat(collected.rows.get(0).hourStart()).isEqualTo(Instant.parse("2001-03-04T18:00:00Z"));
    assertThat(collected.rows.get(0).relativeHumidityPercent()).hasValue(55);
    assertThat(collected.rows.get(0).dewPointC()).isEmpty();
    assertThat(collected.rows.get(1).pressurePa()).isEmpty();
    assertThat(collected.missing).containsExactly(10L);
    // The last hour of December, local, is the next year's in UTC: it wraps round.
    assertThat(collected.rows.get(2).hourStart()).isEqualTo(Instant.parse("2001-01-01T05:00:00Z"));
  }

  /** A typical year has no leap day; 28 February keeps its own hours. */
  @Test
  void leavesTheLeapDayOut() throws IOException {
    var collected = new Collected();

    EpwReader.read(
        "BROOK",
        new StringReader(
            epw(
                "2004,2,28,13,60,flags,12.5,5.0,55,98900,0",
                "2004,2,29,13,60,flags,20.5,5.0,55,98900,0",
                "2004,2,30,13,60,flags,20.5,5.0,55,98900,0")),
        collected);

    assertThat(collected.rows).hasSize(1);
    assertThat(collected.rows.get(0).dryBulbC()).isEqualTo(12.5);
    assertThat(collected.missing).containsExactly(10L);
    assertThat(collected.refused).containsOnlyKeys(11L);
  }

  /** DATA PERIODS: number of periods, records an hour. Of four records none is the hour's mean. */
  @Test
  void refusesSeveralRecordsAnHourAndHeadersOfAnotherLength() {
    String hour = "1999,3,4,13,60,flags,12.5,5.0,55,98900,0";
    assertThatThrownBy(() -> readText(epw(hour).replace("PERIODS,1,1,", "PERIODS,1,4,")))
        .isInstanceOf(WeatherFormatException.class)
        .hasMessageContaining("4 records an hour");
    assertThatThrownBy(() -> readText(epw(hour).replace("COMMENTS 2,\n", "")))
        .isInstanceOf(WeatherFormatException.class)
        .hasMessageContaining("eighth line");
    assertThatThrownBy(() -> readText(epw(hour).replace("COMMENTS 2,\n", "COMMENTS 2,\nMORE\n")))
        .isInstanceOf(WeatherFormatException.class)
        .hasMessageContaining("eighth line");
    assertThatThrownBy(() -> readText("LOCATION,a,b,c,d,e,41.5,-88,-6,210"))
        .isInstanceOf(WeatherFormatException.class)
        .hasMessageContaining("eighth line");
    assertThatThrownBy(() -> readText(epw(hour).replace("-6.0", "-60")))
        .isInstanceOf(WeatherFormatException.class)
        .hasMessageContaining("time zone -60");
  }

  private static void readText(String epw) throws IOException {
    EpwReader.read("X", new StringReader(epw), new Collected());
  }

  @Test
  void refusesLinesInWordsAndGoesOn() throws IOException {
    var collected = new Collected();

    EpwReader.read(
        "BROOK",
        new StringReader(
            epw(
                "1999,3,4,25,60,f,12.5,4,55,98900",
                "1999,13,4,1,60,f,12.5,4,55,98900",
                "1999,3,4,1,60,f,warm,4,55,98900",
                "1999,3,4,1",
                "1999,3,4,1,60,f,85,4,55,98900",
                "1999,3,4,2,60,f,8,4,55,98900")),
        collected);

    assertThat(collected.rows).hasSize(1);
    assertThat(collected.refused).containsOnlyKeys(9L, 10L, 11L, 12L, 13L);
    assertThat(collected.refused.get(9L)).contains("hour 25");
    assertThat(collected.refused.get(11L)).contains("warm");
    assertThat(collected.refused.get(13L)).contains("dry bulb of 85.0");
  }

  @Test
  void refusesWhatIsNoEpwFile() {
    assertThatThrownBy(
            () -> EpwReader.read("X", new StringReader("meter,read_at\nM1,2026"), new Collected()))
        .isInstanceOf(WeatherFormatException.class)
        .hasMessageContaining("LOCATION");
    assertThatThrownBy(
            () ->
                EpwReader.read(
                    "X", new StringReader("LOCATION,a,b,c,d,e,north,-88,-6,210"), new Collected()))
        .isInstanceOf(WeatherFormatException.class)
        .hasMessageContaining("north");
  }
}
