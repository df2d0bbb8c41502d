package towerledger.intake.csv;

import java.math.BigDecimal;
import java.math.RoundingMode;
import java.time.DateTimeException;
import java.time.LocalDate;
import java.time.LocalTime;
import java.time.ZoneId;
import java.util.List;
import java.util.Locale;
import java.util.Optional;
import java.util.regex.Pattern;
import org.jspecify.annotations.Nullable;
import towerledger.wording.SpreadsheetGuard;

/**
 * One row of a file, its cells read by column. An empty cell means 'not known' and comes as null or
 * an empty answer; a cell that cannot be read throws a {@link RowProblem} that says how to mend it.
 */
public final class Row {

  private static final int LONGEST_CODE = 40;

  private final Header header;
  private final List<String> cells;

  /**
   * A row.
   *
   * @throws RowProblem when it has not as many cells as the header
   */
  public Row(Header header, List<String> cells) {
    this.header = header;
    this.cells = cells;
    int width = cells.size();
    while (width > header.width() && cells.get(width - 1).isBlank()) {
      width--;
    }
    if (width != header.width()) {
      throw RowProblem.of(
          "the row has %d cells, the header has %d; look for a missing or spare comma, or put"
              + " quotes around text that holds one",
          width, header.width());
    }
  }

  /** Whether the file has the column at all. */
  public boolean hasColumn(Column column) {
    return header.has(column);
  }

  private @Nullable String find(Column column) {
    int position = header.position(column);
    if (position >= 0) {
      String cell = cells.get(position).strip();
      if (!cell.isEmpty()) {
        return cell;
      }
    }
    if (column.required()) {
      throw RowProblem.of("%s is empty; each row must give it", header.nameOf(column));
    }
    return null;
  }

  private String get(Column column) {
    String cell = find(column);
    if (cell == null) {
      throw RowProblem.of("%s is empty; each row must give it", header.nameOf(column));
    }
    return cell;
  }

  /** Whether the cell is filled. */
  public boolean tells(Column column) {
    int position = header.position(column);
    return position >= 0 && !cells.get(position).isBlank();
  }

  /** A code that each row must give. */
  public String code(Column column) {
    return checkedCode(column, get(column));
  }

  /** A code that may be left empty. */
  public @Nullable String findCode(Column column) {
    String cell = find(column);
    return cell == null ? null : checkedCode(column, cell);
  }

  private String checkedCode(Column column, String cell) {
    boolean fits = cell.length() <= LONGEST_CODE;
    for (int i = 0; fits && i < cell.length(); i++) {
      char c = cell.charAt(i);
      fits = (c < 128 && Character.isLetterOrDigit(c)) || c == '-' || c == '_' || c == '.';
    }
    if (!fits) {
      throw RowProblem.of(
          "%s %s is no code; use at most 40 of letters, digits, '-', '_' and '.'",
          header.nameOf(column), RowProblem.quoted(cell));
    }
    return cell;
  }

  /** Text that each row must give. */
  public String text(Column column, int longest) {
    return checkedText(column, get(column), longest);
  }

  /** Text that may be left empty. */
  public @Nullable String findText(Column column, int longest) {
    String cell = find(column);
    return cell == null ? null : checkedText(column, cell, longest);
  }

  private String checkedText(Column column, String cell, int longest) {
    String text = SpreadsheetGuard.undo(cell);
    if (text.length() > longest) {
      throw RowProblem.of(
          "%s is %d characters long; at most %d are kept, so shorten it",
          header.nameOf(column), text.length(), longest);
    }
    for (int i = 0; i < text.length(); i++) {
      char c = text.charAt(i);
      if (Character.isISOControl(c) && c != '\n' && c != '\r' && c != '\t') {
        throw RowProblem.of(
            "%s holds a control character (code %d) at place %d; remove it",
            header.nameOf(column), (int) c, i + 1);
      }
    }
    return text;
  }

  /** A word from a list that may be left empty, in lower case; the caller knows the list. */
  public Optional<String> word(Column column) {
    String cell = find(column);
    return cell == null ? Optional.empty() : Optional.of(cell.toLowerCase(Locale.ROOT));
  }

  /** One of the words, which each row must give. */
  public String choice(Column column, List<String> words) {
    return checkedChoice(column, get(column), words);
  }

  /** One of the words, or empty. */
  public @Nullable String findChoice(Column column, List<String> words) {
    String cell = find(column);
    return cell == null ? null : checkedChoice(column, cell, words);
  }

  private String checkedChoice(Column column, String cell, List<String> words) {
    String word = cell.toLowerCase(Locale.ROOT);
    if (!words.contains(word)) {
      throw RowProblem.of(
          "%s %s is not known; use one of %s",
          header.nameOf(column), RowProblem.quoted(cell), String.join(", ", words));
    }
    return word;
  }

  /** True or false, or not known. */
  public @Nullable Boolean yesNo(Column column) {
    String cell = find(column);
    if (cell == null) {
      return null;
    }
    return switch (cell.toLowerCase(Locale.ROOT)) {
      case "true", "yes", "1" -> Boolean.TRUE;
      case "false", "no", "0" -> Boolean.FALSE;
      default ->
          throw RowProblem.of(
              "%s %s is neither true nor false", header.nameOf(column), RowProblem.quoted(cell));
    };
  }

  /** The cell as it stands, or null where it is empty. */
  public @Nullable String findRaw(Column column) {
    return find(column);
  }

  /** The name under which the file has the column: the US or the SI one. */
  public String nameOf(Column column) {
    return header.nameOf(column);
  }

  /** Whole text of a form given in words, or null where it is empty. */
  public @Nullable String findMatching(Column column, Pattern form, String inWords) {
    String cell = find(column);
    if (cell != null && !form.matcher(cell).matches()) {
      throw RowProblem.of(
          "%s %s is not understood; write it %s",
          header.nameOf(column), RowProblem.quoted(cell), inWords);
    }
    return cell;
  }

  /** A number in SI that each row must give. */
  public double number(Column column) {
    return si(column, get(column));
  }

  /** A number in SI, or not known. */
  public @Nullable Double findNumber(Column column) {
    String cell = find(column);
    return cell == null ? null : si(column, cell);
  }

  private double si(Column column, String cell) {
    double given = NumberCell.parse(header.nameOf(column), cell);
    Twin us = header.isSi(column) ? null : column.twin();
    double value = us == null ? given : us.toSi(given);
    if (!(value >= column.lowest() && value <= column.highest())) {
      throw RowProblem.of(
          "%s of %s is outside what is possible (%s to %s); check the number and its unit",
          header.nameOf(column),
          cell,
          us == null
              ? NumberCell.shown(column.lowest())
              : NumberCell.shown(us.toUs(column.lowest()), RoundingMode.CEILING),
          us == null
              ? NumberCell.shown(column.highest())
              : NumberCell.shown(us.toUs(column.highest()), RoundingMode.FLOOR));
    }
    return value;
  }

  /** A whole number, or not known. */
  public @Nullable Integer findInteger(Column column) {
    Double value = findNumber(column);
    if (value == null) {
      return null;
    }
    if (value != Math.rint(value)) {
      throw RowProblem.of("%s of %s is not a whole number", header.nameOf(column), value);
    }
    return (int) (double) value;
  }

  /** A decimal kept to the digit, or not known. */
  public @Nullable BigDecimal findDecimal(Column column, int mostDecimals) {
    String cell = find(column);
    return cell == null ? null : checkedDecimal(column, cell, mostDecimals);
  }

  /** A decimal kept to the digit, which each row must give. */
  public BigDecimal decimal(Column column, int mostDecimals) {
    return checkedDecimal(column, get(column), mostDecimals);
  }

  private BigDecimal checkedDecimal(Column column, String cell, int mostDecimals) {
    BigDecimal value = NumberCell.decimal(header.nameOf(column), cell);
    si(column, cell);
    if (value.stripTrailingZeros().scale() > mostDecimals) {
      throw RowProblem.of(
          "%s of %s has more than %d decimals; round it where it was made",
          header.nameOf(column), RowProblem.quoted(cell), mostDecimals);
    }
    return value;
  }

  /** A day that each row must give. */
  public LocalDate day(Column column) {
    return Moment.day(header.nameOf(column), get(column));
  }

  /** A day, or not known. */
  public @Nullable LocalDate findDay(Column column) {
    String cell = find(column);
    return cell == null ? null : Moment.day(header.nameOf(column), cell);
  }

  /** A time of day such as {@code 07:30}, or not known. */
  public @Nullable LocalTime findTime(Column column) {
    String cell = find(column);
    if (cell == null) {
      return null;
    }
    try {
      return LocalTime.parse(cell.length() == 4 && cell.charAt(1) == ':' ? "0" + cell : cell);
    } catch (DateTimeException e) {
      throw RowProblem.of(
          "%s %s is no time of day; write it as 07:30",
          header.nameOf(column), RowProblem.quoted(cell));
    }
  }

  /** A moment that each row must give; a bare date is noon, give or take half a day. */
  public Moment moment(Column column, @Nullable ZoneId zone) {
    return Moment.parse(header.nameOf(column), get(column), zone, Moment.BareDate.NOON);
  }

  /** A moment, or not known; a bare date is noon, give or take half a day. */
  public @Nullable Moment findMoment(Column column, @Nullable ZoneId zone) {
    String cell = find(column);
    return cell == null
        ? null
        : Moment.parse(header.nameOf(column), cell, zone, Moment.BareDate.NOON);
  }

  /** Where a span begins or ends; a bare date is the first instant of that day. */
  public Moment border(Column column, @Nullable ZoneId zone) {
    return Moment.parse(header.nameOf(column), get(column), zone, Moment.BareDate.START_OF_DAY);
  }

  /** The beginning of an hour; a bare date is refused. */
  public Moment hour(Column column, @Nullable ZoneId zone) {
    return Moment.parse(header.nameOf(column), get(column), zone, Moment.BareDate.REFUSED);
  }
}
