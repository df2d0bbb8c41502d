package towerledger.intake.csv;

import java.util.ArrayList;
import java.util.Arrays;
import java.util.List;
import java.util.Locale;
import java.util.stream.Collectors;

/** The header row of a file, matched with the columns the file may have. */
public final class Header {

  private final String file;
  private final int[] positions;
  private final boolean[] si;
  private final int width;
  private final List<String> names;

  private Header(String file, int[] positions, boolean[] si, int width, List<String> names) {
    this.file = file;
    this.positions = positions;
    this.si = si;
    this.width = width;
    this.names = names;
  }

  /**
   * Matches a header row.
   *
   * @param cells names as they stand in the file; case and surrounding space do not matter
   * @throws HeaderProblem naming every column that is unknown, doubled, missing or given in both
   *     units
   */
  public static Header of(Columns columns, List<String> cells) {
    int width = width(cells);
    int[] positions = new int[columns.all().size()];
    Arrays.fill(positions, -1);
    boolean[] si = new boolean[positions.length];
    var names = new ArrayList<String>();
    var problems = new ArrayList<String>();
    for (int i = 0; i < width; i++) {
      String name = cells.get(i).strip().toLowerCase(Locale.ROOT);
      names.add(name);
      var found = columns.find(name);
      if (found.isEmpty()) {
        problems.add(
            name.isEmpty()
                ? "column %d has no name".formatted(i + 1)
                : "column %s is not known".formatted(RowProblem.quoted(name)));
        continue;
      }
      Column column = found.get();
      if (positions[column.ordinal()] >= 0) {
        problems.add(
            column.twin() == null
                ? "column '%s' stands there twice".formatted(name)
                : "give '%s' or '%s' once, not both or twice"
                    .formatted(column.name(), column.siName()));
      }
      positions[column.ordinal()] = i;
      si[column.ordinal()] = !name.equals(column.name());
    }
    for (Column column : columns.all()) {
      if (column.required() && positions[column.ordinal()] < 0) {
        problems.add("column '%s' is missing".formatted(column.name()));
      }
    }
    if (!problems.isEmpty()) {
      throw new HeaderProblem(columns.file(), problems, allowed(columns));
    }
    return new Header(columns.file(), positions, si, width, List.copyOf(names));
  }

  /** Spreadsheets leave empty cells behind the last column. */
  private static int width(List<String> cells) {
    int width = cells.size();
    while (width > 1 && cells.get(width - 1).isBlank()) {
      width--;
    }
    return width;
  }

  private static String allowed(Columns columns) {
    return columns.all().stream()
        .map(
            column ->
                column.twin() == null ? column.name() : column.name() + " or " + column.siName())
        .collect(Collectors.joining(", "));
  }

  /** Name of the file without {@code .csv}. */
  public String file() {
    return file;
  }

  /** The names in their order, as one line. */
  public String text() {
    return String.join(",", names);
  }

  /** Whether the file has the column, in either unit. */
  public boolean has(Column column) {
    return positions[column.ordinal()] >= 0;
  }

  boolean isSi(Column column) {
    return si[column.ordinal()];
  }

  /** The name under which the file has the column. */
  String nameOf(Column column) {
    return isSi(column) ? column.siName() : column.name();
  }

  int width() {
    return width;
  }

  int position(Column column) {
    return positions[column.ordinal()];
  }
}
