package towerledger.account;

import java.sql.Connection;
import java.sql.SQLException;
import org.h2.api.Trigger;
import org.jspecify.annotations.Nullable;

/**
 * Lets the embedded database refuse to change or remove a line of history, as a trigger in SQL does
 * on PostgreSQL. Made by the database, by name.
 */
public final class OnlyGrows implements Trigger {

  private String table = "";

  /** For the database. */
  public OnlyGrows() {}

  @Override
  public void init(
      Connection connection, String schema, String trigger, String table, boolean before, int on) {
    this.table = table;
  }

  @Override
  public void fire(Connection connection, Object @Nullable [] before, Object @Nullable [] after)
      throws SQLException {
    throw new SQLException(
        "%s only grows: a line of history is neither changed nor removed".formatted(table));
  }
}
