package towerledger.weather;

import java.io.BufferedReader;
import java.io.IOException;
import java.io.Reader;
import java.time.DateTimeException;
import java.time.Instant;
import java.time.LocalDateTime;
import java.time.ZoneOffset;
import java.util.OptionalDouble;
import towerledger.psychrometrics.StandardAtmosphere;

/**
 * Reads NOAA ISD-Lite files: one line an hour in fixed columns, UTC, temperatures and pressure in
 * tenths, −9999 for missing. The pressure is reduced to sea level; it is turned back into station
 * pressure with the station's elevation.
 *
 * <p>Source: NOAA NCEI, 'ISD-Lite format' (isd-lite-format.txt): columns 1–4 year, 6–7 month, 9–10
 * day, 12–13 hour, 14–19 air temperature, 20–25 dew point, 26–31 sea-level pressure in tenths of
 * hPa.
 */
public final class IsdLiteReader {

  private static final int MISSING = -9999;
  private static final int LEAST_LENGTH = 31;
  private static final int MOST_LENGTH = 200;

  private IsdLiteReader() {}

  /**
   * Reads a file to its end.
   *
   * @param elevationM height of the station above sea level, which the file does not tell
   * @param lines the file's text; not closed here
   * @param sink takes the hours
   * @throws IOException when reading fails
   */
  public static void read(double elevationM, Reader lines, WeatherSink sink) throws IOException {
    var buffered = new BufferedReader(lines);
    long number = 0;
    for (String line = buffered.readLine(); line != null; line = buffered.readLine()) {
      number++;
      if (!line.isBlank()) {
        readHour(number, line, elevationM, sink);
      }
    }
  }

  private static void readHour(long number, String line, double elevationM, WeatherSink sink) {
    if (line.length() < LEAST_LENGTH || line.length() > MOST_LENGTH) {
      sink.refused(
          number,
          line.substring(0, Math.min(line.length(), MOST_LENGTH)),
          "the line has %d characters; an hour of ISD-Lite has 61, the first %d of which are needed"
              .formatted(line.length(), LEAST_LENGTH));
      return;
    }
    try {
      Instant start =
          LocalDateTime.of(
                  field(line, 0, 4), field(line, 5, 7), field(line, 8, 11), field(line, 11, 13), 0)
              .toInstant(ZoneOffset.UTC);
      int dryBulbTenths = field(line, 13, 19);
      int dewPointTenths = field(line, 19, 25);
      int seaLevelTenths = field(line, 25, 31);
      if (dryBulbTenths == MISSING || dewPointTenths == MISSING) {
        sink.missing(number);
        return;
      }
      double dryBulbC = dryBulbTenths / 10.0;
      sink.hour(
          number,
          new WeatherRow(
              start,
              dryBulbC,
              OptionalDouble.empty(),
              OptionalDouble.of(dewPointTenths / 10.0),
              OptionalDouble.empty(),
              seaLevelTenths == MISSING
                  ? OptionalDouble.empty()
                  : OptionalDouble.of(
                      StandardAtmosphere.stationPressurePa(
                          seaLevelTenths * 10.0, elevationM, dryBulbC))));
    } catch (NumberFormatException e) {
      sink.refused(
          number,
          line,
          "year, month, day, hour, temperatures and pressure must stand in columns 1 to 31: "
              + e.getMessage());
    } catch (DateTimeException | IllegalArgumentException e) {
      sink.refused(number, line, String.valueOf(e.getMessage()));
    }
  }

  private static int field(String line, int from, int to) {
    return Integer.parseInt(line.substring(from, to).strip());
  }
}
