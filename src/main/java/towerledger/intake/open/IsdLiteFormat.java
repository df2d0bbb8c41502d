package towerledger.intake.open;

import java.io.IOException;
import java.io.InputStreamReader;
import java.io.Reader;
import java.nio.charset.StandardCharsets;
import java.util.List;
import java.util.Optional;
import java.util.OptionalDouble;
import java.util.regex.Matcher;
import java.util.regex.Pattern;
import org.springframework.stereotype.Component;
import towerledger.site.Dependents;
import towerledger.weather.IsdLiteReader;
import towerledger.weather.Station;
import towerledger.weather.Stations;

/**
 * NOAA ISD-Lite weather files under the names NOAA gives them, {@code USAF-WBAN-year}: the
 * station's code is {@code USAF-WBAN}, so that the years of one station come together; or under the
 * station's own code with the ending {@code .isd}.
 */
@Component
class IsdLiteFormat implements OpenFormat {

  private static final Pattern NAME =
      Pattern.compile("(?<code>[0-9a-z]\\d{5}-\\d{5})-\\d{4}(\\.[a-z]{1,4})?");

  private final Stations stations;
  private final Dependents dependents;

  IsdLiteFormat(Stations stations, Dependents dependents) {
    this.stations = stations;
    this.dependents = dependents;
  }

  @Override
  public boolean reads(String name) {
    return NAME.matcher(name).matches() || name.endsWith(".isd");
  }

  @Override
  public String file() {
    return WeatherCells.FILE;
  }

  @Override
  public List<String> columns() {
    return WeatherCells.COLUMNS;
  }

  @Override
  public void prepare(String name, Source source) {
    String code = code(name);
    stations.put(
        new Station(
            code,
            Optional.empty(),
            OptionalDouble.empty(),
            OptionalDouble.empty(),
            OptionalDouble.empty(),
            "isd-lite",
            false));
  }

  @Override
  public void read(String name, Source source, Sink sink) throws IOException {
    String code = code(name);
    OptionalDouble elevation = elevation(code);
    try (Reader reader = new InputStreamReader(source.open(), StandardCharsets.ISO_8859_1)) {
      IsdLiteReader.read(
          elevation.orElse(0), reader, new WeatherCells(code, elevation.isPresent(), sink));
    }
    if (elevation.isEmpty()) {
      sink.note(
          "the elevation of station %s is not known, so its sea-level pressures were left out; give it in weather_stations.csv, or elevation_ft of a site that names the station, and hand the file in again"
              .formatted(code));
    }
  }

  private OptionalDouble elevation(String code) {
    OptionalDouble own =
        stations.find(code).map(Station::elevationM).orElse(OptionalDouble.empty());
    return own.isPresent() ? own : dependents.elevationAtStation(code);
  }

  private static String code(String name) {
    Matcher matcher = NAME.matcher(name.toLowerCase(java.util.Locale.ROOT));
    if (matcher.matches()) {
      return matcher.group("code").toUpperCase(java.util.Locale.ROOT);
    }
    String code = WeatherCells.code(name);
    if (code.isEmpty()) {
      throw new OpenFormatProblem(
          "the file's name is no code for its station; name it after the station, such as ORD.isd");
    }
    return code;
  }
}
