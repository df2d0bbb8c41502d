package towerledger.ledger;

import static org.assertj.core.api.Assertions.assertThat;
import static org.assertj.core.api.Assertions.assertThatThrownBy;

import java.time.YearMonth;
import java.util.List;
import org.junit.jupiter.api.BeforeEach;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.ValueSource;
import org.springframework.beans.factory.annotation.Autowired;
import org.springframework.dao.DataAccessException;
import org.springframework.jdbc.core.simple.JdbcClient;
import org.springframework.transaction.support.TransactionTemplate;
import towerledger.site.CoolingSystem;
import towerledger.site.Sites;

/** The ledger only grows, and a closed month changes for no other reason than its own facts. */
abstract class RevisionsCases {

  private static final YearMonth MAY = YearMonth.of(2019, 5);

  @Autowired Sites sites;
  @Autowired JdbcClient jdbc;
  @Autowired TransactionTemplate transaction;
  @Autowired Revisions revisions;
  @Autowired Ledger ledger;

  private CoolingSystem system;

  @BeforeEach
  void aTower() {
    system = LedgerRows.tower(jdbc, sites, "rev-" + System.nanoTime(), "UTC");
  }

  @Test
  void theSameFiguresAppendNothing() {
    assertThat(append(LedgerStatus.PROVISIONAL, "facts", "1", 1000, false)).isEqualTo(1);
    assertThat(append(LedgerStatus.PROVISIONAL, "other facts", "1", 1000, false)).isZero();
    assertThat(ledger.listRevisions(system, MAY)).hasSize(1);
  }

  @Test
  void aProvisionalMonthFollowsWhateverIsLearnt() {
    append(LedgerStatus.PROVISIONAL, "facts", "1", 1000, false);
    assertThat(append(LedgerStatus.PROVISIONAL, "facts", "1", 1100, false)).isEqualTo(1);
    assertThat(standing().water().makeup()).isEqualTo(1100);
    assertThat(standing().status()).isEqualTo(LedgerStatus.PROVISIONAL);
  }

  @Test
  void hindsightNeverRewritesAClosedMonth() {
    append(LedgerStatus.CLOSED, "facts", "1", 1000, false);
    assertThat(append(LedgerStatus.CLOSED, "facts", "1", 900, false)).isZero();
    assertThat(append(LedgerStatus.CLOSED, "facts", "2", 900, false)).as("newer model").isZero();
    assertThat(standing().water().makeup()).isEqualTo(1000);
  }

  @Test
  void aChangedFactRestatesAClosedMonthAndBothFiguresStayToBeSeen() {
    append(LedgerStatus.CLOSED, "facts", "1", 1000, false);
    assertThat(append(LedgerStatus.CLOSED, "a corrected reading", "1", 1200, false)).isEqualTo(1);

    assertThat(standing().status()).isEqualTo(LedgerStatus.RESTATED);
    assertThat(standing().reason()).isEqualTo("because of the test");
    assertThat(ledger.listRevisions(system, MAY))
        .extracting(entry -> entry.water().makeup())
        .containsExactly(1200.0, 1000.0);
  }

  @Test
  void anOrderedUpgradeOfTheModelRestatesAClosedMonth() {
    append(LedgerStatus.CLOSED, "facts", "1", 1000, false);
    assertThat(append(LedgerStatus.CLOSED, "facts", "1", 990, true)).as("same model").isZero();
    assertThat(append(LedgerStatus.CLOSED, "facts", "2", 990, true)).isEqualTo(1);
    assertThat(standing().modelVersion()).isEqualTo("2");
  }

  @ParameterizedTest
  @ValueSource(
      strings = {
        "UPDATE ledger_revision SET makeup_l = 1 WHERE system_id = :system",
        "DELETE FROM ledger_revision WHERE system_id = :system"
      })
  void theDatabaseItselfRefusesToChangeOrRemoveARevision(String sql) {
    append(LedgerStatus.CLOSED, "facts", "1", 1000, false);

    assertThatThrownBy(() -> jdbc.sql(sql).param("system", system.id()).update())
        .isInstanceOf(DataAccessException.class)
        .hasMessageContaining("only grows");

    assertThat(standing().water().makeup()).isEqualTo(1000);
  }

  private LedgerEntry standing() {
    return ledger.find(system, MAY).orElseThrow();
  }

  private int append(
      LedgerStatus status, String facts, String model, double makeup, boolean upgradeOrdered) {
    List<Long> written =
        transaction.execute(
            transactionStatus ->
                revisions.append(
                    List.of(LedgerRows.row(system, MAY, status, facts, model, makeup)),
                    revisions.standing(List.of(system.id()), MAY),
                    "because of the test",
                    upgradeOrdered));
    return written == null ? 0 : written.size();
  }
}
