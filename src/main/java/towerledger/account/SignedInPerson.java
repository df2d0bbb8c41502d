package towerledger.account;

import java.sql.ResultSet;
import java.sql.SQLException;
import java.util.Optional;
import org.springframework.jdbc.core.simple.JdbcClient;

/**
 * A person as every request of theirs begins by reading: one row, in one trip to the database.
 *
 * @param viewer what the person may see
 * @param enabled whether the person may sign in at all
 * @param sessionRound which round of sessions is open
 * @param mustChangePassword whether nothing but choosing an own password is open
 */
record SignedInPerson(
    Viewer viewer, boolean enabled, long sessionRound, boolean mustChangePassword) {

  /** The person with a key, if there is one. */
  static Optional<SignedInPerson> find(JdbcClient jdbc, long id) {
    return jdbc.sql(
            """
            SELECT id, email, name, role, customer_id, may_enter, units, language, enabled,
              session_round, must_change_password
            FROM account_person WHERE id = ?""")
        .param(id)
        .query(SignedInPerson::read)
        .optional();
  }

  private static SignedInPerson read(ResultSet row, int number) throws SQLException {
    long customerId = row.getLong("customer_id");
    return new SignedInPerson(
        new Viewer(
            row.getLong("id"),
            row.getString("email"),
            row.getString("name"),
            Role.valueOf(row.getString("role")),
            customerId == 0 ? null : customerId,
            TokenScope.ALL,
            row.getBoolean("may_enter"),
            UnitPreference.valueOf(row.getString("units")),
            row.getString("language")),
        row.getBoolean("enabled"),
        row.getLong("session_round"),
        row.getBoolean("must_change_password"));
  }

  ViewerAuthentication authentication() {
    return mustChangePassword
        ? ViewerAuthentication.mustChangePassword(viewer)
        : new ViewerAuthentication(viewer);
  }
}
