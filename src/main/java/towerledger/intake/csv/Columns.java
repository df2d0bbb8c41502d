package towerledger.intake.csv;

import java.util.ArrayList;
import java.util.List;
import java.util.Optional;

/** The columns of one file of the interchange format, declared one by one. */
public final class Columns {

  private final String file;
  private final List<Column> columns = new ArrayList<>();

  /**
   * Begins a file.
   *
   * @param file its name without {@code .csv}
   */
  public Columns(String file) {
    this.file = file;
  }

  /** Name of the file without {@code .csv}. */
  public String file() {
    return file;
  }

  public List<Column> all() {
    return List.copyOf(columns);
  }

  /** Text, a code, a choice or a moment that each row must tell. */
  public Column required(String name) {
    return add(name, true, null, 0, 0);
  }

  /** Text, a code, a choice or a moment that may be left empty. */
  public Column optional(String name) {
    return add(name, false, null, 0, 0);
  }

  /** A number without twin, within bounds; may be left empty. */
  public Column number(String name, double lowest, double highest) {
    return add(name, false, null, lowest, highest);
  }

  /** A number without twin, within bounds, that each row must tell. */
  public Column requiredNumber(String name, double lowest, double highest) {
    return add(name, true, null, lowest, highest);
  }

  /** A number in either unit system; bounds in SI; may be left empty. */
  public Column number(String name, Twin twin, double lowest, double highest) {
    return add(name, false, twin, lowest, highest);
  }

  /** A number in either unit system that each row must tell; bounds in SI. */
  public Column requiredNumber(String name, Twin twin, double lowest, double highest) {
    return add(name, true, twin, lowest, highest);
  }

  private Column add(
      String name,
      boolean required,
      @org.jspecify.annotations.Nullable Twin twin,
      double lowest,
      double highest) {
    var column = new Column(name, required, twin, lowest, highest, columns.size());
    columns.add(column);
    return column;
  }

  /** The column with a US or SI name. */
  Optional<Column> find(String name) {
    return columns.stream()
        .filter(column -> column.name().equals(name) || column.siName().equals(name))
        .findFirst();
  }
}
