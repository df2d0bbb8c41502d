package towerledger.account;

import static org.assertj.core.api.Assertions.assertThat;
import static org.assertj.core.api.Assertions.assertThatThrownBy;

import org.junit.jupiter.api.Test;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.ValueSource;
import org.springframework.beans.factory.annotation.Autowired;
import org.springframework.dao.DataAccessException;
import org.springframework.jdbc.core.simple.JdbcClient;

/** Who can write to the database can add history and can neither change nor remove it. */
abstract class HistoryOnlyGrowsCases {

  @Autowired ChangeHistory history;
  @Autowired JdbcClient jdbc;

  @ParameterizedTest
  @ValueSource(
      strings = {
        "UPDATE account_change SET actor = 'nobody' WHERE thing_code = 'GROWS-1'",
        "DELETE FROM account_change WHERE thing_code = 'GROWS-1'",
        "DELETE FROM account_change"
      })
  void refusesToChangeOrRemoveALine(String sql) {
    history.record(Actor.system("test"), "added", "site", "GROWS-1", null, null, "{}");
    long before = lines();

    assertThatThrownBy(() -> jdbc.sql(sql).update())
        .isInstanceOf(DataAccessException.class)
        .hasMessageContaining("only grows");

    assertThat(lines()).isEqualTo(before);
  }

  @Test
  void takesNewLines() {
    long before = lines();

    history.record(Actor.system("test"), "changed", "site", "GROWS-1", null, "{}", "{}");

    assertThat(lines()).isEqualTo(before + 1);
  }

  private long lines() {
    return jdbc.sql(
            "SELECT COUNT(*) FROM account_change WHERE thing_code = 'GROWS-1' AND actor <> 'nobody'")
        .query(Long.class)
        .single();
  }
}
