package towerledger.office.foreign;

import java.util.ArrayList;
import java.util.Arrays;
import java.util.HashMap;
import java.util.List;
import java.util.Map;
import java.util.Set;
import java.util.stream.Stream;
import org.jspecify.annotations.Nullable;
import towerledger.intake.csv.Column;
import towerledger.intake.csv.Columns;
import towerledger.intake.csv.Twin;
import towerledger.intake.foreign.ForeignColumn;
import towerledger.intake.foreign.ForeignMapping;
import towerledger.office.ColumnText;
import towerledger.office.foreign.ForeignView.Choice;
import towerledger.office.foreign.ForeignView.Field;
import towerledger.office.foreign.ForeignView.Layout;
import towerledger.quantity.VolumeUnit;
import towerledger.wording.Words;

/**
 * The form of a mapping: what was typed or, before anything was, what is remembered or suggested;
 * and what is wrong with it, field by field.
 */
final class MappingForm {

  private static final String TAB = "tab";
  private static final Set<String> MOMENTS =
      Set.of(
          "read_at",
          "taken_at",
          "start",
          "end",
          "hour_start",
          "visited_at",
          "from",
          "to",
          "installed_at",
          "removed_at",
          "effective_from",
          "started_on");

  private final Columns columns;
  private final Map<String, String> typed;
  private final Map<String, String> wrong = new HashMap<>();
  private final Words words;

  MappingForm(Columns columns, Map<String, String> typed, Words words) {
    this.columns = columns;
    this.typed = typed;
    this.words = words;
  }

  /** The form filled by a mapping. */
  static MappingForm of(Columns columns, ForeignMapping mapping, Words words) {
    Map<String, String> cells = new HashMap<>();
    put(cells, "delimiter", "\t".equals(mapping.delimiter()) ? TAB : mapping.delimiter());
    put(cells, "decimal", mapping.decimal());
    Integer row = mapping.headerRow();
    put(cells, "row", row == null ? "1" : row.toString());
    for (ForeignColumn filled : mapping.columns()) {
      for (Column column : columns.all()) {
        if (column.name().equals(filled.column()) || column.siName().equals(filled.column())) {
          String at = "-" + column.ordinal();
          put(cells, "from" + at, filled.from());
          put(cells, "and" + at, filled.and());
          put(cells, "constant" + at, filled.constant());
          put(cells, "pattern" + at, filled.pattern());
          put(cells, "unit" + at, unit(column, filled));
        }
      }
    }
    return new MappingForm(columns, cells, words);
  }

  private static void put(Map<String, String> cells, String name, @Nullable String value) {
    cells.put(name, value == null ? "" : value);
  }

  private static String unit(Column column, ForeignColumn filled) {
    Twin twin = column.twin();
    if (filled.unit() != null) {
      return filled.unit();
    }
    if (twin == null) {
      return "";
    }
    return column.name().equals(filled.column()) ? twin.usUnit() : twin.siUnit();
  }

  private String cell(String name) {
    return typed.getOrDefault(name, "").strip();
  }

  private String cell(String name, Column column) {
    return cell(name + "-" + column.ordinal());
  }

  /** Whether the table is to be cut in another way than the columns offered come from. */
  boolean cutAnew() {
    return typed.containsKey("built-row")
        && !(cell("row").equals(cell("built-row"))
            && cell("delimiter").equals(cell("built-delimiter")));
  }

  /** How the table is cut, without any column. */
  ForeignMapping layout() {
    return mapping(List.of());
  }

  /** The mapping as it stands; only what is right is in it. */
  ForeignMapping mapping() {
    List<ForeignColumn> filled = new ArrayList<>();
    for (Column column : columns.all()) {
      String from = cell("from", column);
      String constant = cell("constant", column);
      if (!from.isEmpty() && !constant.isEmpty()) {
        wrong.put("from-" + column.ordinal(), words.of("foreign.wrong.both"));
      } else if (!from.isEmpty() || !constant.isEmpty()) {
        add(filled, column, from, constant);
      } else if (column.required()) {
        wrong.put("from-" + column.ordinal(), words.of("foreign.wrong.needed"));
      }
    }
    return mapping(filled);
  }

  private ForeignMapping mapping(List<ForeignColumn> filled) {
    Integer headerRow = row(cell("row"));
    if (headerRow == null) {
      wrong.put("row", words.of("foreign.wrong.row", ForeignMapping.LOWEST_HEADER));
      headerRow = row(cell("built-row"));
    }
    String delimiter = cell("delimiter");
    return new ForeignMapping(
        columns.file(),
        TAB.equals(delimiter) ? "\t" : Set.of(";", "|").contains(delimiter) ? delimiter : ",",
        ",".equals(cell("decimal")) ? "," : ".",
        headerRow,
        filled);
  }

  private static @Nullable Integer row(String text) {
    Integer row = text.matches("[1-9]\\d?") ? Integer.valueOf(text) : null;
    return row == null || row > ForeignMapping.LOWEST_HEADER ? null : row;
  }

  private void add(List<ForeignColumn> filled, Column column, String from, String constant) {
    String unit = cell("unit", column);
    Twin twin = column.twin();
    boolean volume = twin == Twin.GALLONS;
    boolean si = twin != null && !volume && unit.equals(twin.siUnit());
    boolean otherVolume = volume && !unit.isEmpty() && !unit.equals(Twin.GALLONS.usUnit());
    String pattern = moment(column) ? cell("pattern", column) : "";
    var plain =
        new ForeignColumn(
            si ? column.siName() : column.name(),
            from.isEmpty() ? null : from,
            from.isEmpty() ? null : given(cell("and", column)),
            given(constant),
            null,
            otherVolume && !from.isEmpty() ? unit : null);
    try {
      filled.add(from.isEmpty() ? plain : plain.withPattern(given(pattern)));
    } catch (IllegalArgumentException e) {
      filled.add(plain);
      wrong.put("pattern-" + column.ordinal(), words.of("refused.pattern", pattern));
    }
  }

  private static @Nullable String given(String text) {
    return text.isEmpty() ? null : text;
  }

  private static boolean moment(Column column) {
    return MOMENTS.contains(column.name());
  }

  /** Whether something is wrong with what was typed, as far as it was read. */
  boolean isWrong() {
    return !wrong.isEmpty();
  }

  /** How the table is cut, to be shown. */
  Layout layoutView() {
    return new Layout(
        List.of(
            new Choice(",", words.of("foreign.delimiter.comma")),
            new Choice(";", words.of("foreign.delimiter.semicolon")),
            new Choice(TAB, words.of("foreign.delimiter.tab")),
            new Choice("|", words.of("foreign.delimiter.bar"))),
        cell("delimiter"),
        List.of(
            new Choice(".", words.of("foreign.decimal.point")),
            new Choice(",", words.of("foreign.decimal.comma"))),
        cell("decimal"),
        cell("row"),
        wrong.get("row"),
        wrong.containsKey("row") ? cell("built-row") : cell("row"),
        cell("delimiter"));
  }

  /** The columns to be shown: those that are needed, filled or wrong, or the others. */
  List<Field> fields(boolean first) {
    return columns.all().stream()
        .filter(column -> first == isFirst(column))
        .map(this::field)
        .toList();
  }

  private boolean isFirst(Column column) {
    return column.required()
        || !cell("from", column).isEmpty()
        || !cell("constant", column).isEmpty()
        || wrong.containsKey("from-" + column.ordinal());
  }

  private Field field(Column column) {
    return new Field(
        column.ordinal(),
        ColumnText.label(column, words),
        column.name(),
        column.required(),
        moment(column),
        units(column),
        cell("from", column),
        cell("and", column),
        cell("constant", column),
        cell("pattern", column),
        cell("unit", column),
        wrong.get("from-" + column.ordinal()),
        wrong.get("pattern-" + column.ordinal()));
  }

  private static List<Choice> units(Column column) {
    Twin twin = column.twin();
    if (twin == null) {
      return List.of();
    }
    if (twin == Twin.GALLONS) {
      return Arrays.stream(VolumeUnit.values())
          .map(unit -> new Choice(unit.code(), unit.code()))
          .toList();
    }
    return Stream.of(twin.usUnit(), twin.siUnit()).map(unit -> new Choice(unit, unit)).toList();
  }
}
