package towerledger.bulk;

import java.sql.Connection;
import java.sql.PreparedStatement;
import java.sql.SQLException;
import java.util.Collection;
import java.util.List;
import java.util.stream.Collectors;
import org.jspecify.annotations.Nullable;
import org.postgresql.PGConnection;
import org.postgresql.copy.CopyIn;

/** PostgreSQL takes rows fastest by {@code COPY} in its binary form. */
final class PostgresCopy implements RowInsert {

  @Override
  public void insert(Connection connection, BulkTable table, Collection<@Nullable Object[]> rows)
      throws SQLException {
    CopyIn copy =
        connection
            .unwrap(PGConnection.class)
            .getCopyAPI()
            .copyIn(
                "COPY %s (%s) FROM STDIN (FORMAT BINARY)"
                    .formatted(table.name(), table.columnList("")));
    try {
      var encoder = new BinaryRows(table.columns(), copy);
      for (@Nullable Object[] row : rows) {
        encoder.write(row);
      }
      encoder.finish();
      copy.endCopy();
    } finally {
      if (copy.isActive()) {
        copy.cancelCopy();
      }
    }
  }

  @Override
  public String keysExpression(BulkTable table) {
    return table.columns().stream()
        .filter(BulkColumn::isKey)
        .map(column -> "CAST(? AS " + column.type().postgresName() + "[])")
        .collect(Collectors.joining(", ", "UNNEST(", ")"));
  }

  @Override
  public void setKeys(
      Connection connection,
      PreparedStatement statement,
      int index,
      BulkColumn column,
      List<@Nullable Object> cells)
      throws SQLException {
    if (column.type() == BulkType.BIGINT) {
      statement.setArray(index, connection.createArrayOf("bigint", cells.toArray(new Long[0])));
    } else {
      String[] texts =
          cells.stream().map(cell -> cell == null ? null : cell.toString()).toArray(String[]::new);
      statement.setArray(index, connection.createArrayOf("text", texts));
    }
  }
}
