package towerledger.intake.foreign;

import org.jspecify.annotations.Nullable;

/**
 * How one column of an interchange file is filled.
 *
 * @param column its interchange name; the choice between its US and SI name is the choice of unit
 * @param from name of the foreign column; null when the same text stands in every row
 * @param and name of a second foreign column put behind the first with a space, such as the time
 *     beside the date; null when there is none
 * @param constant the text of every row; null when it comes from a column
 * @param pattern how a date is written, such as {@code M/d/uuuu h:mm a}; null when it is written as
 *     the interchange format writes it, or no date
 * @param unit unit of a volume, such as {@code m3}; null when it is that of the column's name
 */
public record ForeignColumn(
    String column,
    @Nullable String from,
    @Nullable String and,
    @Nullable String constant,
    @Nullable String pattern,
    @Nullable String unit) {

  public ForeignColumn {
    if ((from == null) == (constant == null)) {
      throw new IllegalArgumentException(
          "column '%s' needs either 'from' (a column of the table) or 'constant' (one text for all rows)"
              .formatted(column));
    }
    if (pattern != null) {
      DatePatterns.formatter(pattern);
    }
  }

  static ForeignColumn from(String column, String from) {
    return new ForeignColumn(column, from, null, null, null, null);
  }

  ForeignColumn withAnd(String other) {
    return new ForeignColumn(column, from, other, constant, pattern, unit);
  }

  /**
   * The same with dates written otherwise.
   *
   * @throws IllegalArgumentException when the pattern is none
   */
  public ForeignColumn withPattern(@Nullable String written) {
    return new ForeignColumn(column, from, and, constant, written, unit);
  }

  ForeignColumn withUnit(@Nullable String counted) {
    return new ForeignColumn(column, from, and, constant, pattern, counted);
  }
}
