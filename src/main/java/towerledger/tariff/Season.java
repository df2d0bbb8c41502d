package towerledger.tariff;

import java.util.regex.Matcher;
import java.util.regex.Pattern;

/**
 * Calendar months from a first to a last, both included; {@code 11-3} runs across the new year.
 *
 * @param firstMonth 1–12
 * @param lastMonth 1–12
 */
public record Season(int firstMonth, int lastMonth) {

  /** All twelve months. */
  public static final Season WHOLE_YEAR = new Season(1, 12);

  private static final Pattern TEXT = Pattern.compile("(\\d{1,2})(?:\\s*-\\s*(\\d{1,2}))?");

  public Season {
    if (firstMonth < 1 || firstMonth > 12 || lastMonth < 1 || lastMonth > 12) {
      throw new IllegalArgumentException(
          "season %d-%d is not made of months 1 to 12; write for instance 11-3 for November to"
                  .formatted(firstMonth, lastMonth)
              + " March");
    }
  }

  /**
   * A season written {@code 5-10}, or a single month written {@code 7}.
   *
   * @throws IllegalArgumentException when the text is no season
   */
  public static Season parse(String text) {
    Matcher matcher = TEXT.matcher(text.strip());
    if (!matcher.matches()) {
      throw new IllegalArgumentException(
          "months '%s' cannot be read; write for instance 12-2".formatted(text));
    }
    int first = Integer.parseInt(matcher.group(1));
    return new Season(first, matcher.group(2) == null ? first : Integer.parseInt(matcher.group(2)));
  }

  /** Whether a calendar month (1–12) belongs to the season. */
  public boolean contains(int month) {
    return firstMonth <= lastMonth
        ? month >= firstMonth && month <= lastMonth
        : month >= firstMonth || month <= lastMonth;
  }

  /** The season as it is written in files. */
  @Override
  public String toString() {
    return firstMonth + "-" + lastMonth;
  }
}
