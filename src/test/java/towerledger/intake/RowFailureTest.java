package towerledger.intake;

import static org.assertj.core.api.Assertions.assertThat;

import java.io.IOException;
import java.sql.SQLException;
import org.junit.jupiter.api.Test;
import org.springframework.dao.DataIntegrityViolationException;
import org.springframework.jdbc.UncategorizedSQLException;

/** No row is held in quarantine for what the machine could not do. */
class RowFailureTest {

  @Test
  void takesAFullDiskForAnOutage() {
    var full = new SQLException("General error", "HY000", 50000);
    full.initCause(new IOException("No space left on device"));
    assertThat(RowFailure.isOutage(new UncategorizedSQLException("insert", "INSERT …", full)))
        .isTrue();
  }

  @Test
  void takesARowThatIsRefusedForARowThatIsRefused() {
    assertThat(
            RowFailure.isOutage(
                new DataIntegrityViolationException(
                    "refused", new SQLException("Value too long", "22001", 22001))))
        .isFalse();
  }
}
