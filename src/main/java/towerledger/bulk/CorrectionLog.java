package towerledger.bulk;

import java.math.BigDecimal;
import java.sql.Connection;
import java.sql.PreparedStatement;
import java.sql.ResultSet;
import java.sql.SQLException;
import java.time.Instant;
import java.util.ArrayList;
import java.util.Collections;
import java.util.List;
import java.util.Map;
import java.util.function.Supplier;
import java.util.stream.Collectors;
import org.jspecify.annotations.Nullable;
import tools.jackson.databind.json.JsonMapper;

/** Keeps the older values of corrected rows, and knows whether a value is one of them. */
final class CorrectionLog {

  private final BulkTable table;
  private final Corrections corrections;
  private final JsonMapper json;
  private final List<Copied> copied = new ArrayList<>();

  /** A column of the row and its column in the log. */
  private record Copied(int index, BulkColumn column, String target) {}

  CorrectionLog(BulkTable table, JsonMapper json) {
    this.table = table;
    this.corrections = table.corrections();
    this.json = json;
    corrections.columns().forEach(name -> copy(name, name));
    corrections.renamed().forEach(renamed -> copy(renamed.from(), renamed.to()));
  }

  private void copy(String from, String to) {
    int index = table.index(from);
    copied.add(new Copied(index, table.columns().get(index), to));
  }

  void write(Connection connection, List<@Nullable Object[]> replaced, Supplier<Instant> moments)
      throws SQLException {
    if (!corrections.kept() || replaced.isEmpty()) {
      return;
    }
    try (PreparedStatement insert = connection.prepareStatement(insertSql())) {
      for (@Nullable Object[] row : replaced) {
        int parameter = 1;
        for (Copied c : copied) {
          c.column.type().set(insert, parameter++, row[c.index]);
        }
        for (Corrections.Constant constant : corrections.constants()) {
          insert.setString(parameter++, constant.value());
        }
        BulkType.INSTANT.set(insert, parameter++, moments.get());
        if (corrections.json()) {
          insert.setString(parameter, json.writeValueAsString(table.describe(row)));
        }
        insert.addBatch();
      }
      insert.executeBatch();
    }
  }

  private String insertSql() {
    var columns =
        copied.stream().map(Copied::target).collect(Collectors.toCollection(ArrayList::new));
    corrections.constants().forEach(constant -> columns.add(constant.column()));
    columns.add("replaced_at");
    if (corrections.json()) {
      columns.add("old_json");
    }
    return "INSERT INTO %s (%s) VALUES (%s)"
        .formatted(
            corrections.table(),
            String.join(", ", columns),
            String.join(", ", Collections.nCopies(columns.size(), "?")));
  }

  /** Whether what the row tells stood once and was corrected. */
  boolean hasSeen(Connection connection, @Nullable Object[] row) throws SQLException {
    if (!corrections.kept()) {
      return false;
    }
    var keys = copied.stream().filter(c -> c.column.isKey()).toList();
    String sql =
        "SELECT * FROM %s WHERE %s"
            .formatted(
                corrections.table(),
                keys.stream().map(c -> c.target + " = ?").collect(Collectors.joining(" AND ")));
    try (PreparedStatement select = connection.prepareStatement(sql)) {
      for (int i = 0; i < keys.size(); i++) {
        keys.get(i).column.type().set(select, i + 1, row[keys.get(i).index]);
      }
      try (ResultSet result = select.executeQuery()) {
        while (result.next()) {
          if (corrections.json() ? saysJson(result, row) : saysColumns(result, row)) {
            return true;
          }
        }
      }
    }
    return false;
  }

  private boolean saysColumns(ResultSet result, @Nullable Object[] row) throws SQLException {
    for (Copied c : copied) {
      Object cell = row[c.index];
      if (c.column.isValue() && cell != null) {
        Object old = c.column.type().get(result, result.findColumn(c.target));
        if (old == null || !c.column.type().same(old, cell)) {
          return false;
        }
      }
    }
    return true;
  }

  @SuppressWarnings("unchecked")
  private boolean saysJson(ResultSet result, @Nullable Object[] row) throws SQLException {
    Map<String, Object> old = json.readValue(result.getString("old_json"), Map.class);
    for (int i = 0; i < row.length; i++) {
      BulkColumn column = table.columns().get(i);
      Object cell = row[i];
      if ((column.isKey() || column.isValue())
          && cell != null
          && !sameText(cell, old.get(column.name()))) {
        return false;
      }
    }
    return true;
  }

  private static boolean sameText(Object cell, @Nullable Object old) {
    if (old == null) {
      return false;
    }
    return (cell instanceof Number && old instanceof Number)
        ? new BigDecimal(cell.toString()).compareTo(new BigDecimal(old.toString())) == 0
        : cell.toString().equals(old.toString());
  }
}
