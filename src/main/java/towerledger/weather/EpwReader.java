package towerledger.weather;

import java.io.BufferedReader;
import java.io.IOException;
import java.io.Reader;
import java.time.DateTimeException;
import java.time.Duration;
import java.time.Instant;
import java.time.LocalDate;
import java.time.ZoneOffset;
import java.util.Locale;
import java.util.Optional;
import java.util.OptionalDouble;

/**
 * Reads EPW weather files (EnergyPlus weather format): eight header lines, then 8760 hours of local
 * standard time, each named by its end (hour 1 is the first of the day). The years of a typical
 * year differ from month to month and mean nothing; hours are given in the year of {@link
 * TypicalYear}, those of a leap day are left out. Missing values: 99.9 °C, 999 %, 999999 Pa.
 *
 * <p>Source: EnergyPlus Auxiliary Programs, 'Weather Converter Program', data dictionary; column
 * order checked against the open library pvlib.
 */
public final class EpwReader {

  private static final int HEADER_LINES = 8;
  private static final int MOST_LINE_LENGTH = 10_000;

  private EpwReader() {}

  /**
   * Reads a file to its end.
   *
   * @param code the code that the station shall have
   * @param epw the file's text; not closed here
   * @param sink takes the hours
   * @return the station as the header describes it
   * @throws WeatherFormatException when the first or the eighth line is no EPW header, or an hour
   *     has several records
   * @throws IOException when reading fails
   */
  public static Station read(String code, Reader epw, WeatherSink sink) throws IOException {
    var lines = new BufferedReader(epw);
    String header = lines.readLine();
    String[] location = header == null ? new String[0] : header.split(",", -1);
    if (location.length < 10
        || !location[0].strip().toUpperCase(Locale.ROOT).endsWith("LOCATION")) {
      throw new WeatherFormatException(
          "the first line is not 'LOCATION,city,...' with latitude, longitude, time zone and elevation; is this an EPW file?");
    }
    Station station;
    double zoneHours;
    try {
      station =
          new Station(
              code,
              Optional.of(location[1].strip()).filter(name -> !name.isEmpty()),
              OptionalDouble.of(Double.parseDouble(location[6])),
              OptionalDouble.of(Double.parseDouble(location[7])),
              OptionalDouble.of(Double.parseDouble(location[9])),
              "epw",
              true);
      zoneHours = Double.parseDouble(location[8]);
    } catch (IllegalArgumentException e) {
      throw new WeatherFormatException(
          "LOCATION gives latitude '%s', longitude '%s', time zone '%s', elevation '%s'; all four must be numbers in range"
              .formatted(location[6], location[7], location[8], location[9]));
    }
    if (!(zoneHours >= -12 && zoneHours <= 14)) {
      throw new WeatherFormatException(
          "LOCATION gives time zone %s, outside -12 to 14 hours; local standard time is so many hours before or behind UTC"
              .formatted(location[8].strip()));
    }
    Duration offset = Duration.ofMinutes(Math.round(zoneHours * 60));
    long number = 1;
    for (String line = lines.readLine(); line != null; line = lines.readLine()) {
      number++;
      if (number == HEADER_LINES) {
        requireHourly(line);
      } else if (number > HEADER_LINES && !line.isBlank()) {
        readHour(number, line, offset, sink);
      }
    }
    if (number < HEADER_LINES) {
      requireHourly("");
    }
    return station;
  }

  /** The last line before the hours tells how many records an hour has. */
  private static void requireHourly(String periods) {
    String[] cells = periods.split(",", -1);
    if (!cells[0].strip().equalsIgnoreCase("DATA PERIODS")) {
      throw new WeatherFormatException(
          "the eighth line is not 'DATA PERIODS,...', so the hours may begin elsewhere; an EPW file has eight lines before them");
    }
    if (cells.length > 2 && !cells[2].isBlank() && !cells[2].strip().equals("1")) {
      throw new WeatherFormatException(
          "DATA PERIODS tells %s records an hour; give a file with one record an hour"
              .formatted(cells[2].strip()));
    }
  }

  private static void readHour(long number, String line, Duration offset, WeatherSink sink) {
    if (line.length() > MOST_LINE_LENGTH) {
      sink.refused(number, line.substring(0, 200), "the line is longer than an hour of EPW can be");
      return;
    }
    String[] cells = line.split(",", -1);
    if (cells.length < 10) {
      sink.refused(
          number,
          line,
          "the line has %d columns; pressure is the tenth, so at least 10 are needed"
              .formatted(cells.length));
      return;
    }
    try {
      if (number(cells[1]) == 2 && number(cells[2]) == 29) {
        // A typical year has no leap day: 29 February takes the hours of the 28th.
        sink.missing(number);
        return;
      }
      LocalDate day = LocalDate.of(TypicalYear.YEAR, number(cells[1]), number(cells[2]));
      int hour = number(cells[3]);
      if (hour < 1 || hour > 24) {
        throw new IllegalArgumentException(
            "hour %d is outside 1 to 24; EPW names an hour by its end".formatted(hour));
      }
      Instant start =
          TypicalYear.stored(
              day.atStartOfDay().plusHours(hour - 1L).toInstant(ZoneOffset.UTC).minus(offset));
      double dryBulb = Double.parseDouble(cells[6]);
      double dewPoint = Double.parseDouble(cells[7]);
      double humidity = Double.parseDouble(cells[8]);
      double pressure = Double.parseDouble(cells[9]);
      boolean hasDewPoint = dewPoint < 99.9;
      boolean hasHumidity = humidity < 999;
      if (dryBulb >= 99.9 || !(hasDewPoint || hasHumidity)) {
        sink.missing(number);
        return;
      }
      sink.hour(
          number,
          new WeatherRow(
              start,
              dryBulb,
              OptionalDouble.empty(),
              hasDewPoint ? OptionalDouble.of(dewPoint) : OptionalDouble.empty(),
              hasDewPoint ? OptionalDouble.empty() : OptionalDouble.of(humidity),
              pressure < 999_999 ? OptionalDouble.of(pressure) : OptionalDouble.empty()));
    } catch (NumberFormatException e) {
      sink.refused(
          number,
          line,
          "date, temperature, humidity and pressure (columns 1 to 10) must be numbers: "
              + e.getMessage());
    } catch (DateTimeException | IllegalArgumentException e) {
      sink.refused(number, line, String.valueOf(e.getMessage()));
    }
  }

  private static int number(String cell) {
    return Integer.parseInt(cell.strip());
  }
}
