package towerledger.intake.csv;

import java.time.Instant;
import java.time.LocalDate;
import org.jspecify.annotations.Nullable;

/**
 * The two shapes that loggers write by the million, {@code 2025-07-01T14:30:00Z} and {@code
 * 2025-07-01T14:30:00-05:00} (also without seconds), read without a formatter. Everything else,
 * wrong dates included, is left to the formatter and its words.
 */
final class FastInstant {

  private FastInstant() {}

  /** The instant, or null if the text has another shape. */
  static @Nullable Instant parse(String text) {
    int length = text.length();
    if (length < 17 || text.charAt(10) != 'T' || text.charAt(13) != ':') {
      return null;
    }
    boolean seconds = text.charAt(16) == ':';
    int zoneAt = seconds ? 19 : 16;
    int year = digits(text, 0, 4);
    int month = digits(text, 5, 7);
    int day = digits(text, 8, 10);
    int hour = digits(text, 11, 13);
    int minute = digits(text, 14, 16);
    int second = seconds && length > 19 ? digits(text, 17, 19) : 0;
    if (length <= zoneAt
        || text.charAt(4) != '-'
        || text.charAt(7) != '-'
        || year < 0
        || month < 1
        || month > 12
        || day < 1
        || day > 28
        || hour < 0
        || hour > 23
        || minute < 0
        || minute > 59
        || second < 0
        || second > 59) {
      return lateDay(text, day) ? slow(text) : null;
    }
    int offset = offsetSeconds(text, zoneAt);
    if (offset == Integer.MIN_VALUE) {
      return null;
    }
    long days = LocalDate.of(year, month, day).toEpochDay();
    return Instant.ofEpochSecond(days * 86_400L + hour * 3_600L + minute * 60L + second - offset);
  }

  private static boolean lateDay(String text, int day) {
    return day > 28 && day <= 31 && text.endsWith("Z") && text.length() == 20;
  }

  private static @Nullable Instant slow(String text) {
    try {
      return Instant.parse(text);
    } catch (java.time.DateTimeException e) {
      return null;
    }
  }

  private static int offsetSeconds(String text, int at) {
    char sign = text.charAt(at);
    if (sign == 'Z' && text.length() == at + 1) {
      return 0;
    }
    if ((sign != '+' && sign != '-') || text.length() != at + 6 || text.charAt(at + 3) != ':') {
      return Integer.MIN_VALUE;
    }
    int hours = digits(text, at + 1, at + 3);
    int minutes = digits(text, at + 4, at + 6);
    if (hours < 0 || hours > 17 || minutes < 0 || minutes > 59) {
      return Integer.MIN_VALUE;
    }
    int seconds = hours * 3_600 + minutes * 60;
    return sign == '-' ? -seconds : seconds;
  }

  /** The digits as a number, or -1. */
  private static int digits(String text, int from, int to) {
    int value = 0;
    for (int i = from; i < to; i++) {
      int digit = text.charAt(i) - '0';
      if (digit < 0 || digit > 9) {
        return -1;
      }
      value = value * 10 + digit;
    }
    return value;
  }
}
