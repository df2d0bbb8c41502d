package towerledger.bulk;

import java.util.List;

/**
 * Where the older values of a corrected row are kept. The table has a {@code replaced_at} column
 * beside those named here.
 *
 * @param table its name; empty if nothing is kept here
 * @param columns columns copied from the row, under the same names
 * @param renamed columns copied under another name
 * @param constants columns with a fixed text
 * @param json whether the whole row goes as JSON into {@code old_json}
 */
public record Corrections(
    String table,
    List<String> columns,
    List<Renamed> renamed,
    List<Constant> constants,
    boolean json) {

  /** The caller keeps older values by itself. */
  public static final Corrections NOT_KEPT =
      new Corrections("", List.of(), List.of(), List.of(), false);

  public Corrections {
    columns = List.copyOf(columns);
    renamed = List.copyOf(renamed);
    constants = List.copyOf(constants);
  }

  /** Column by column. */
  public static Corrections columns(String table, String... columns) {
    return new Corrections(table, List.of(columns), List.of(), List.of(), false);
  }

  /** Key columns and the whole row as JSON. */
  public static Corrections json(
      String table, List<String> columns, List<Renamed> renamed, List<Constant> constants) {
    return new Corrections(table, columns, renamed, constants, true);
  }

  /** A column copied under another name. */
  public record Renamed(String from, String to) {}

  /** A column with a fixed text. */
  public record Constant(String column, String value) {}

  boolean kept() {
    return !table.isEmpty();
  }
}
