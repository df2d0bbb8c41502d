package towerledger.bulk;

import java.util.ArrayList;
import java.util.Arrays;
import java.util.LinkedHashMap;
import java.util.List;
import java.util.Map;
import java.util.stream.Collectors;
import java.util.stream.IntStream;
import org.jspecify.annotations.Nullable;

/**
 * A table that is loaded in bulk. Its rows are arrays with one cell per column, in the order of
 * {@code columns}.
 *
 * @param name its name in the database
 * @param keyIsUnique whether the database itself refuses a second row with the same key
 * @param corrections where older values of a corrected row go; {@link Corrections#NOT_KEPT} if the
 *     caller keeps them
 * @param columns its columns; columns that the database fills by itself are left out
 */
public record BulkTable(
    String name, boolean keyIsUnique, Corrections corrections, List<BulkColumn> columns) {

  public BulkTable {
    columns = List.copyOf(columns);
    if (columns.stream().noneMatch(BulkColumn::isKey)) {
      throw new IllegalArgumentException("table %s has no key column".formatted(name));
    }
  }

  public static BulkTable of(String name, Corrections corrections, BulkColumn... columns) {
    return new BulkTable(name, true, corrections, List.of(columns));
  }

  /** Position of a column in a row. */
  public int index(String column) {
    return IntStream.range(0, columns.size())
        .filter(i -> columns.get(i).name().equals(column))
        .findFirst()
        .orElseThrow(
            () ->
                new IllegalArgumentException("table %s has no column %s".formatted(name, column)));
  }

  /** A row as names and values, as a history of changes shows it; empty cells are left out. */
  public Map<String, Object> describe(@Nullable Object[] row) {
    var map = new LinkedHashMap<String, Object>();
    for (int i = 0; i < row.length; i++) {
      Object cell = row[i];
      BulkColumn column = columns.get(i);
      if (cell != null && (column.isKey() || column.isValue())) {
        map.put(column.name(), cell);
      }
    }
    return map;
  }

  List<@Nullable Object> keyOf(@Nullable Object[] row) {
    var key = new ArrayList<@Nullable Object>(3);
    for (int i = 0; i < row.length; i++) {
      if (columns.get(i).isKey()) {
        Object cell = row[i];
        key.add(cell == null ? null : columns.get(i).type().canonical(cell));
      }
    }
    return key;
  }

  /** Whether the newer row tells something the older does not say. */
  boolean differs(@Nullable Object[] older, @Nullable Object[] newer) {
    boolean otherWay = tellsAlternative(newer);
    for (int i = 0; i < older.length; i++) {
      BulkColumn column = columns.get(i);
      Object cell = newer[i];
      Object known = older[i];
      if (cell == null) {
        if (otherWay && known != null && column.role() == BulkColumn.Role.ALTERNATIVE) {
          return true;
        }
      } else if (column.isValue() && (known == null || !column.type().same(cell, known))) {
        return true;
      }
    }
    return false;
  }

  /**
   * The newer row, which differs, put over the older; what it leaves empty stays, but for what it
   * tells in another way.
   */
  @Nullable Object[] merged(@Nullable Object[] older, @Nullable Object[] newer) {
    boolean otherWay = tellsAlternative(newer);
    @Nullable Object[] whole = complete(newer);
    @Nullable Object[] merged = Arrays.copyOf(older, older.length);
    for (int i = 0; i < merged.length; i++) {
      BulkColumn.Role role = columns.get(i).role();
      if ((whole[i] != null && role != BulkColumn.Role.BIRTH)
          || (otherWay && role == BulkColumn.Role.ALTERNATIVE)) {
        merged[i] = whole[i];
      }
    }
    return merged;
  }

  /** The row with what its empty cells usually stand for. */
  @Nullable Object[] complete(@Nullable Object[] row) {
    @Nullable Object[] whole = row;
    for (int i = 0; i < row.length; i++) {
      Object usual = columns.get(i).usual();
      if (row[i] == null && usual != null) {
        whole = whole == row ? Arrays.copyOf(row, row.length) : whole;
        whole[i] = usual;
      }
    }
    return whole;
  }

  private boolean tellsAlternative(@Nullable Object[] row) {
    for (int i = 0; i < row.length; i++) {
      if (row[i] != null && columns.get(i).role() == BulkColumn.Role.ALTERNATIVE) {
        return true;
      }
    }
    return false;
  }

  String columnList(String prefix) {
    return columns.stream().map(c -> prefix + c.name()).collect(Collectors.joining(", "));
  }

  String insertSql() {
    return "INSERT INTO %s (%s) VALUES (%s)"
        .formatted(
            name, columnList(""), columns.stream().map(c -> "?").collect(Collectors.joining(", ")));
  }

  String updateSql() {
    return "UPDATE %s SET %s WHERE %s"
        .formatted(
            name,
            columns.stream()
                .filter(c -> !c.isKey())
                .map(c -> c.name() + " = ?")
                .collect(Collectors.joining(", ")),
            columns.stream()
                .filter(BulkColumn::isKey)
                .map(c -> c.name() + equality(c) + "?")
                .collect(Collectors.joining(" AND ")));
  }

  static String equality(BulkColumn column) {
    return column.role() == BulkColumn.Role.NULLABLE_KEY ? " IS NOT DISTINCT FROM " : " = ";
  }
}
