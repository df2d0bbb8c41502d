package towerledger.intake.foreign;

import java.time.DateTimeException;
import java.time.LocalDate;
import java.time.LocalDateTime;
import java.time.format.DateTimeFormatter;
import java.time.format.DateTimeFormatterBuilder;
import java.time.format.ResolverStyle;
import java.time.temporal.TemporalAccessor;
import java.util.List;
import java.util.Locale;
import java.util.Optional;
import java.util.stream.Stream;

/** Dates as people and spreadsheets write them, brought to ISO 8601. */
final class DatePatterns {

  private static final List<String> DAYS =
      List.of(
          "M/d/uuuu",
          "d/M/uuuu",
          "M/d/uu",
          "d/M/uu",
          "d.M.uuuu",
          "d.M.uu",
          "M-d-uuuu",
          "d-M-uuuu",
          "uuuu/M/d",
          "uuuu-M-d",
          "d-MMM-uuuu",
          "d-MMM-uu",
          "d MMM uuuu",
          "MMM d, uuuu");

  private static final List<String> TIMES =
      List.of("", " H:mm", " H:mm:ss", " h:mm a", " h:mm:ss a");

  private DatePatterns() {}

  /** A written date as ISO text; empty when it does not follow the pattern. */
  static Optional<String> iso(String pattern, String written) {
    try {
      TemporalAccessor read =
          formatter(pattern).parseBest(written.strip(), LocalDateTime::from, LocalDate::from);
      return Optional.of(
          read instanceof LocalDateTime at
              ? DateTimeFormatter.ISO_LOCAL_DATE_TIME.format(at)
              : read.toString());
    } catch (DateTimeException e) {
      return Optional.empty();
    }
  }

  /**
   * The patterns that some dates follow; empty when none does, or when any is ISO already and needs
   * none. Slips that follow no pattern at all are passed over while at least half of the dates
   * follow one. Two patterns mean that the dates do not tell which one is meant.
   */
  static List<String> candidates(List<String> written) {
    if (written.stream().anyMatch(DatePatterns::isIso)) {
      return List.of();
    }
    List<String> readable = written.stream().filter(DatePatterns::followsAny).toList();
    if (readable.isEmpty() || 2 * readable.size() < written.size()) {
      return List.of();
    }
    return patterns()
        .filter(pattern -> readable.stream().allMatch(text -> iso(pattern, text).isPresent()))
        .toList();
  }

  private static Stream<String> patterns() {
    return DAYS.stream().flatMap(day -> TIMES.stream().map(time -> day + time));
  }

  private static boolean followsAny(String text) {
    return patterns().anyMatch(pattern -> iso(pattern, text).isPresent());
  }

  static boolean isIso(String text) {
    return text.strip().matches("\\d{4}-\\d{2}-\\d{2}([T ].*)?");
  }

  /**
   * A formatter of a pattern.
   *
   * @throws IllegalArgumentException when it is none
   */
  static DateTimeFormatter formatter(String pattern) {
    try {
      return new DateTimeFormatterBuilder()
          .parseCaseInsensitive()
          .appendPattern(pattern)
          .toFormatter(Locale.US)
          .withResolverStyle(ResolverStyle.STRICT);
    } catch (IllegalArgumentException e) {
      throw new IllegalArgumentException(
          "date pattern '%s' is not understood; write for instance M/d/uuuu h:mm a or d.M.uuuu H:mm"
              .formatted(pattern),
          e);
    }
  }
}
