package towerledger.intake;

import java.util.List;
import java.util.stream.Stream;
import org.jspecify.annotations.Nullable;

/**
 * One file of an export: which columns it has, under their SI names, and the query that fills them
 * in the same order.
 *
 * @param name its name without {@code .csv}
 * @param columns its columns
 * @param sql the query; each of its columns goes into the column at its place
 * @param lastNeeded a query that finds a row where the last column is needed; else it is left out.
 *     Null where it always stands
 */
record ExportFile(String name, List<Cell> columns, String sql, @Nullable String lastNeeded) {

  ExportFile {
    columns = List.copyOf(columns);
  }

  /** How a column is written. */
  enum Form {
    /** As the database gives it: codes, choices, numbers to the last digit, days, times. */
    PLAIN,
    /** What people wrote: guarded against being run as a formula. */
    WORDS,
    /** An instant, in UTC. */
    INSTANT,
    /** An instant that stands for a whole day, given with its zone and give-or-take hours. */
    DAY_OR_INSTANT
  }

  /** A column. */
  record Cell(String name, Form form) {}

  /**
   * Columns by name; a name that begins with {@code "} holds words, one with {@code @} an instant.
   */
  static ExportFile of(String name, String columns, String sql) {
    return new ExportFile(
        name, Stream.of(columns.split("[,\\s]+")).map(ExportFile::cell).toList(), sql, null);
  }

  /** The same with a last column that is left out unless a query finds a row. */
  ExportFile lastOnlyIf(String found) {
    return new ExportFile(name, columns, sql, found);
  }

  /** The columns without the last. */
  List<Cell> columnsButLast() {
    return columns.subList(0, columns.size() - 1);
  }

  private static Cell cell(String text) {
    return switch (text.charAt(0)) {
      case '"' -> new Cell(text.substring(1), Form.WORDS);
      case '@' -> new Cell(text.substring(1), Form.INSTANT);
      case '~' -> new Cell(text.substring(1), Form.DAY_OR_INSTANT);
      default -> new Cell(text, Form.PLAIN);
    };
  }
}
