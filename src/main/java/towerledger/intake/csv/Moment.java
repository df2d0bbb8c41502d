package towerledger.intake.csv;

import java.time.DateTimeException;
import java.time.Instant;
import java.time.LocalDate;
import java.time.LocalDateTime;
import java.time.OffsetDateTime;
import java.time.ZoneId;
import java.time.ZoneOffset;
import java.time.format.DateTimeFormatter;
import java.time.format.DateTimeFormatterBuilder;
import java.time.format.ResolverStyle;
import java.time.temporal.ChronoUnit;
import org.jspecify.annotations.Nullable;

/**
 * When something was read or taken.
 *
 * @param instant the instant, to the microsecond
 * @param giveOrTakeHours how far off it may be: 12 for a bare date, else 0
 */
public record Moment(Instant instant, double giveOrTakeHours) {

  /** What a date without time of day stands for. */
  public enum BareDate {
    /** Noon, ± 12 hours: somebody read it that day. */
    NOON,
    /** The first instant of the day: a span begins or ends there. */
    START_OF_DAY,
    /** Nothing: a time is needed. */
    REFUSED
  }

  /** Before this nobody metered cooling towers with this format. */
  private static final LocalDate EARLIEST = LocalDate.of(1970, 1, 1);

  private static final LocalDate LATEST = LocalDate.of(2099, 12, 31);

  private static final DateTimeFormatter LOCAL =
      new DateTimeFormatterBuilder()
          .append(DateTimeFormatter.ISO_LOCAL_DATE)
          .appendLiteral('T')
          .append(DateTimeFormatter.ISO_LOCAL_TIME)
          .toFormatter()
          .withResolverStyle(ResolverStyle.STRICT);
  private static final DateTimeFormatter WITH_OFFSET =
      new DateTimeFormatterBuilder()
          .append(LOCAL)
          .parseLenient()
          .appendOffset("+HH:mm", "Z")
          .toFormatter()
          .withResolverStyle(ResolverStyle.STRICT);

  /** A moment known to the second. */
  static Moment exactly(Instant instant) {
    return new Moment(instant.truncatedTo(ChronoUnit.MICROS), 0);
  }

  /**
   * Reads an instant with offset, a local time or a bare date.
   *
   * @param zone the place's zone; null if it has none, then an offset is needed
   */
  static Moment parse(String name, String cell, @Nullable ZoneId zone, BareDate bareDate) {
    if (cell.length() == 10) {
      LocalDate day = day(name, cell);
      return switch (bareDate) {
        case NOON -> new Moment(local(name, cell, day.atTime(12, 0), zone), 12);
        case START_OF_DAY -> {
          if (zone == null) {
            throw withoutZone(name, cell);
          }
          yield exactly(day.atStartOfDay(zone).toInstant());
        }
        case REFUSED ->
            throw RowProblem.of(
                "%s %s has no time of day; write it as 2025-07-01T14:00-05:00",
                name, RowProblem.quoted(cell));
      };
    }
    Instant utc = FastInstant.parse(cell);
    if (utc != null) {
      return within(name, cell, exactly(utc), utc.atOffset(ZoneOffset.UTC).toLocalDate());
    }
    String text = cell.length() > 10 && cell.charAt(10) == ' ' ? spaceToT(cell) : cell;
    try {
      if (hasOffset(text)) {
        OffsetDateTime given = OffsetDateTime.parse(text, WITH_OFFSET);
        return within(name, cell, exactly(given.toInstant()), given.toLocalDate());
      }
      LocalDateTime given = LocalDateTime.parse(text, LOCAL);
      return within(name, cell, exactly(local(name, cell, given, zone)), given.toLocalDate());
    } catch (DateTimeException e) {
      throw RowProblem.of(
          "%s %s is no moment; write it as 2025-07-01T14:30-05:00, as 2025-07-01T14:30 in the"
              + " site's time, or as 2025-07-01",
          name, RowProblem.quoted(cell));
    }
  }

  private static String spaceToT(String cell) {
    return cell.substring(0, 10) + "T" + cell.substring(11).strip().replace(" ", "");
  }

  private static boolean hasOffset(String text) {
    return text.endsWith("Z")
        || text.indexOf('+', 10) > 0
        || (text.length() > 11 && text.indexOf('-', 11) > 0);
  }

  private static Moment within(String name, String cell, Moment moment, LocalDate day) {
    requirePossible(name, cell, day);
    return moment;
  }

  private static Instant local(
      String name, String cell, LocalDateTime time, @Nullable ZoneId zone) {
    if (zone == null) {
      throw withoutZone(name, cell);
    }
    var offsets = zone.getRules().getValidOffsets(time);
    if (offsets.size() == 1) {
      return time.toInstant(offsets.get(0));
    }
    if (offsets.isEmpty()) {
      throw RowProblem.of(
          "%s %s does not exist in %s: the clock was put forward past it; write the true time, with"
              + " its offset",
          name, cell, zone);
    }
    throw RowProblem.of(
        "%s %s came twice in %s, as the clock was put back; add the offset: %s or %s",
        name, cell, zone, offsets.get(0), offsets.get(1));
  }

  private static RowProblem withoutZone(String name, String cell) {
    return RowProblem.of(
        "%s %s has no offset and its place has no single time zone; add the offset, such as -05:00"
            + " or Z",
        name, RowProblem.quoted(cell));
  }

  static LocalDate day(String name, String cell) {
    LocalDate day;
    try {
      day = LocalDate.parse(cell);
    } catch (DateTimeException e) {
      throw RowProblem.of(
          "%s %s is no day of the calendar; write it as 2025-07-01", name, RowProblem.quoted(cell));
    }
    requirePossible(name, cell, day);
    return day;
  }

  private static void requirePossible(String name, String cell, LocalDate day) {
    if (day.isBefore(EARLIEST) || day.isAfter(LATEST)) {
      throw RowProblem.of(
          "%s %s is outside %s to %s; check the year",
          name, RowProblem.quoted(cell), EARLIEST, LATEST);
    }
  }
}
