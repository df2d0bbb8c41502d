package towerledger.bulk;

import java.sql.Connection;
import java.sql.PreparedStatement;
import java.sql.SQLException;
import java.util.Collection;
import java.util.List;
import java.util.Locale;
import java.util.stream.Collectors;
import org.jspecify.annotations.Nullable;

/** H2 runs in this process: a prepared batch is its fastest way in. */
final class H2Batch implements RowInsert {

  private static final int ROWS_PER_BATCH = 2_000;

  @Override
  public void insert(Connection connection, BulkTable table, Collection<@Nullable Object[]> rows)
      throws SQLException {
    List<BulkColumn> columns = table.columns();
    try (PreparedStatement insert = connection.prepareStatement(table.insertSql())) {
      int waiting = 0;
      for (@Nullable Object[] row : rows) {
        for (int i = 0; i < row.length; i++) {
          columns.get(i).type().set(insert, i + 1, row[i]);
        }
        insert.addBatch();
        if (++waiting == ROWS_PER_BATCH) {
          insert.executeBatch();
          waiting = 0;
        }
      }
      if (waiting > 0) {
        insert.executeBatch();
      }
    }
  }

  @Override
  public String keysExpression(BulkTable table) {
    return table.columns().stream()
        .filter(BulkColumn::isKey)
        .map(column -> "CAST(? AS " + typeName(column.type()) + " ARRAY)")
        .collect(Collectors.joining(", ", "UNNEST(", ")"));
  }

  private static String typeName(BulkType type) {
    return switch (type) {
      case DOUBLE -> "DOUBLE PRECISION";
      case DECIMAL -> "NUMERIC(38, 12)";
      case TEXT -> "VARCHAR";
      case INSTANT -> "TIMESTAMP WITH TIME ZONE";
      case BIGINT, SMALLINT, INTEGER, BOOLEAN, DATE -> type.name().toUpperCase(Locale.ROOT);
    };
  }

  @Override
  public void setKeys(
      Connection connection,
      PreparedStatement statement,
      int index,
      BulkColumn column,
      List<@Nullable Object> cells)
      throws SQLException {
    statement.setObject(
        index,
        cells.stream().map(cell -> cell == null ? null : column.type().jdbcValue(cell)).toArray());
  }
}
