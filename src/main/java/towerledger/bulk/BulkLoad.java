package towerledger.bulk;

import java.sql.Connection;
import java.sql.PreparedStatement;
import java.sql.ResultSet;
import java.sql.SQLException;
import java.sql.Savepoint;
import java.time.Instant;
import java.util.ArrayList;
import java.util.Collection;
import java.util.Collections;
import java.util.HashMap;
import java.util.LinkedHashMap;
import java.util.List;
import java.util.Map;
import java.util.function.Supplier;
import javax.sql.DataSource;
import org.jspecify.annotations.Nullable;
import org.springframework.jdbc.datasource.DataSourceUtils;
import org.springframework.jdbc.support.SQLExceptionSubclassTranslator;
import org.springframework.jdbc.support.SQLExceptionTranslator;
import org.springframework.transaction.support.TransactionSynchronizationManager;
import tools.jackson.databind.json.JsonMapper;
import towerledger.bulk.BatchResult.Change;
import towerledger.bulk.BatchResult.Fate;

/**
 * One load of one table, batch after batch. New rows are added; a row that tells another value
 * under a known key corrects it, and the older value is kept; the rest changes nothing. The outcome
 * is the same as if each row came alone.
 *
 * <p>New rows are the rule, so a batch is first put in blindly; only when the database says that a
 * key is there already are the stored rows looked up and compared.
 */
public final class BulkLoad {

  private final BulkTable table;
  private final boolean repeated;
  private final DataSource dataSource;
  private final RowInsert insert;
  private final Supplier<Instant> moments;
  private final CorrectionLog corrections;
  private final SQLExceptionTranslator errors = new SQLExceptionSubclassTranslator();
  private boolean expectNew;

  BulkLoad(
      BulkTable table,
      boolean repeated,
      DataSource dataSource,
      RowInsert insert,
      JsonMapper json,
      Supplier<Instant> moments) {
    this.table = table;
    this.repeated = repeated;
    this.dataSource = dataSource;
    this.insert = insert;
    this.moments = moments;
    this.corrections = new CorrectionLog(table, json);
    this.expectNew = table.keyIsUnique() && !repeated;
  }

  /**
   * Takes a batch within the transaction that is under way.
   *
   * @param rows arrays in the order of the table's columns
   * @throws org.springframework.dao.DataAccessException when the database refuses a row: then the
   *     transaction must be rolled back, and nothing of the batch is taken
   */
  public BatchResult apply(List<@Nullable Object[]> rows) {
    if (!TransactionSynchronizationManager.isActualTransactionActive()) {
      throw new IllegalStateException("a batch is taken inside a transaction; there is none");
    }
    Connection connection = DataSourceUtils.getConnection(dataSource);
    try {
      if (expectNew && allInserted(connection, rows)) {
        return new BatchResult(Collections.nCopies(rows.size(), Fate.ADDED), List.of());
      }
      BatchResult result = merge(connection, rows);
      expectNew = table.keyIsUnique() && result.fates().stream().allMatch(Fate.ADDED::equals);
      return result;
    } catch (SQLException e) {
      throw translated(e);
    } finally {
      DataSourceUtils.releaseConnection(connection, dataSource);
    }
  }

  private RuntimeException translated(SQLException e) {
    var known = errors.translate("bulk load of " + table.name(), null, e);
    return known != null
        ? known
        : new org.springframework.jdbc.UncategorizedSQLException(
            "bulk load of " + table.name(), null, e);
  }

  private boolean allInserted(Connection connection, List<@Nullable Object[]> rows)
      throws SQLException {
    Savepoint before = connection.setSavepoint();
    try {
      insert.insert(connection, table, rows.stream().map(table::complete).toList());
      connection.releaseSavepoint(before);
      return true;
    } catch (SQLException e) {
      if (!"23505".equals(e.getSQLState())) {
        throw e;
      }
      connection.rollback(before);
      return false;
    }
  }

  private BatchResult merge(Connection connection, List<@Nullable Object[]> rows)
      throws SQLException {
    var states = stored(connection, rows);
    var fates = new ArrayList<Fate>(rows.size());
    var changes = new ArrayList<Change>();
    var replaced = new ArrayList<@Nullable Object[]>();
    for (@Nullable Object[] row : rows) {
      List<@Nullable Object> key = table.keyOf(row);
      State state = states.get(key);
      if (state == null) {
        states.put(key, new State(true, table.complete(row)));
        fates.add(Fate.ADDED);
      } else if (!table.differs(state.row, row)) {
        fates.add(Fate.UNCHANGED);
      } else if (repeated && corrections.hasSeen(connection, row)) {
        fates.add(Fate.OVERTAKEN);
      } else {
        @Nullable Object[] after = table.merged(state.row, row);
        changes.add(new Change(state.row, after));
        replaced.add(state.row);
        state.row = after;
        state.changed = true;
        fates.add(Fate.CHANGED);
      }
    }
    corrections.write(connection, replaced, moments);
    insert.insert(connection, table, rowsOf(states, state -> state.added));
    update(connection, rowsOf(states, state -> state.changed && !state.added));
    return new BatchResult(fates, changes);
  }

  private static Collection<@Nullable Object[]> rowsOf(
      Map<List<@Nullable Object>, State> states, java.util.function.Predicate<State> which) {
    var rows = new ArrayList<@Nullable Object[]>();
    for (State state : states.values()) {
      if (which.test(state)) {
        rows.add(state.row);
      }
    }
    return rows;
  }

  /** The stored rows under the keys of the given ones. */
  private Map<List<@Nullable Object>, State> stored(
      Connection connection, List<@Nullable Object[]> rows) throws SQLException {
    var keyColumns = table.columns().stream().filter(BulkColumn::isKey).toList();
    var keys = new HashMap<List<@Nullable Object>, Boolean>();
    var cells = new ArrayList<List<@Nullable Object>>();
    keyColumns.forEach(column -> cells.add(new ArrayList<>()));
    for (@Nullable Object[] row : rows) {
      List<@Nullable Object> key = table.keyOf(row);
      if (keys.put(key, true) == null) {
        for (int i = 0; i < cells.size(); i++) {
          cells.get(i).add(key.get(i));
        }
      }
    }
    var found = new LinkedHashMap<List<@Nullable Object>, State>();
    try (PreparedStatement select = connection.prepareStatement(lookupSql(keyColumns))) {
      for (int i = 0; i < cells.size(); i++) {
        insert.setKeys(connection, select, i + 1, keyColumns.get(i), cells.get(i));
      }
      try (ResultSet result = select.executeQuery()) {
        while (result.next()) {
          @Nullable Object[] row = new @Nullable Object[table.columns().size()];
          for (int i = 0; i < row.length; i++) {
            row[i] = table.columns().get(i).type().get(result, i + 1);
          }
          found.put(table.keyOf(row), new State(false, row));
        }
      }
    }
    return found;
  }

  private String lookupSql(List<BulkColumn> keyColumns) {
    var names = new ArrayList<String>();
    var matches = new ArrayList<String>();
    for (BulkColumn column : keyColumns) {
      names.add("k_" + column.name());
      matches.add("t." + column.name() + BulkTable.equality(column) + "k.k_" + column.name());
    }
    return "SELECT %s FROM %s AS k(%s) JOIN %s t ON %s"
        .formatted(
            table.columnList("t."),
            insert.keysExpression(table),
            String.join(", ", names),
            table.name(),
            String.join(" AND ", matches));
  }

  private void update(Connection connection, Collection<@Nullable Object[]> rows)
      throws SQLException {
    if (rows.isEmpty()) {
      return;
    }
    List<BulkColumn> columns = table.columns();
    try (PreparedStatement update = connection.prepareStatement(table.updateSql())) {
      for (@Nullable Object[] row : rows) {
        int parameter = 1;
        for (boolean key : new boolean[] {false, true}) {
          for (int i = 0; i < row.length; i++) {
            if (columns.get(i).isKey() == key) {
              columns.get(i).type().set(update, parameter++, row[i]);
            }
          }
        }
        update.addBatch();
      }
      update.executeBatch();
    }
  }

  /** A row as it stands while the batch goes on. */
  private static final class State {
    private final boolean added;
    private @Nullable Object[] row;
    private boolean changed;

    State(boolean added, @Nullable Object[] row) {
      this.added = added;
      this.row = row;
    }
  }
}
