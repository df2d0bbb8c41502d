package towerledger.bulk;

import java.sql.Connection;
import java.sql.SQLException;
import java.util.Collection;
import java.util.List;
import org.jspecify.annotations.Nullable;

/** How rows get into a table fastest, and how stored ones are found by key: once per database. */
sealed interface RowInsert permits PostgresCopy, H2Batch {

  /**
   * Inserts all rows or none.
   *
   * @throws SQLException with state 23505 when a key is there already
   */
  void insert(Connection connection, BulkTable table, Collection<@Nullable Object[]> rows)
      throws SQLException;

  /** The keys as a table expression with one {@code ?} array per key column, in order. */
  String keysExpression(BulkTable table);

  /** Sets one of the arrays of {@link #keysExpression}. */
  void setKeys(
      Connection connection,
      java.sql.PreparedStatement statement,
      int index,
      BulkColumn column,
      List<@Nullable Object> cells)
      throws SQLException;
}
