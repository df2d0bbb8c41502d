package towerledger.intake.open;

import java.io.BufferedReader;
import java.io.IOException;
import java.io.InputStreamReader;
import java.io.Reader;
import java.nio.charset.StandardCharsets;
import java.util.List;
import org.springframework.stereotype.Component;
import towerledger.weather.EpwReader;
import towerledger.weather.Station;
import towerledger.weather.Stations;
import towerledger.weather.WeatherFormatException;
import towerledger.weather.WeatherRow;
import towerledger.weather.WeatherSink;

/**
 * EPW weather files: a typical year. The station's code is the file's name without {@code .epw};
 * where that cannot be a code, the WMO number of the header.
 */
@Component
class EpwFormat implements OpenFormat {

  private static final int WMO_NUMBER = 5;

  private final Stations stations;

  EpwFormat(Stations stations) {
    this.stations = stations;
  }

  @Override
  public boolean reads(String name) {
    return name.endsWith(".epw");
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
  public void prepare(String name, Source source) throws IOException {
    stations.put(station(code(name, source), source, new HeaderOnly()));
  }

  @Override
  public void read(String name, Source source, Sink sink) throws IOException {
    String code = code(name, source);
    Station station = station(code, source, new WeatherCells(code, true, sink));
    sink.note(
        "station %s (%s) is a typical year: its hours are laid over every real month, and figures built on them say so"
            .formatted(code, station.name().orElse("without name")));
  }

  private static Station station(String code, Source source, WeatherSink sink) throws IOException {
    try (Reader reader = open(source)) {
      return EpwReader.read(code, reader, sink);
    } catch (WeatherFormatException e) {
      throw new OpenFormatProblem(String.valueOf(e.getMessage()), e);
    }
  }

  private static String code(String name, Source source) throws IOException {
    String code = WeatherCells.code(name);
    if (!code.isEmpty()) {
      return code;
    }
    try (BufferedReader reader = new BufferedReader(open(source))) {
      String header = reader.readLine();
      String[] location = header == null ? new String[0] : header.split(",", -1);
      String wmo = location.length > WMO_NUMBER ? location[WMO_NUMBER].strip() : "";
      if (!wmo.matches("[A-Za-z0-9]{1,20}")) {
        throw new OpenFormatProblem(
            "the file's name is no code for its station and its first line gives no WMO number;"
                + " name the file after the station, such as ATL.epw");
      }
      return wmo;
    }
  }

  /** EPW is plain ASCII; Latin-1 never fails on a stray letter in a place's name. */
  private static Reader open(Source source) throws IOException {
    return new InputStreamReader(source.open(), StandardCharsets.ISO_8859_1);
  }

  /** Hours do not matter where only the station is wanted. */
  private static final class HeaderOnly implements WeatherSink {

    @Override
    public void hour(long line, WeatherRow row) {
      // The station alone is wanted.
    }

    @Override
    public void missing(long line) {
      // The station alone is wanted.
    }

    @Override
    public void refused(long line, String raw, String reason) {
      // The rows are read once more, and refused then.
    }
  }
}
