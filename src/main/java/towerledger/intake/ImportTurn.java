package towerledger.intake;

import java.sql.Connection;
import java.sql.ResultSet;
import java.sql.SQLException;
import java.sql.Statement;
import java.util.concurrent.CountDownLatch;
import java.util.concurrent.TimeUnit;
import java.util.concurrent.locks.ReentrantLock;
import java.util.function.Supplier;
import javax.sql.DataSource;
import org.springframework.beans.factory.annotation.Value;
import org.springframework.stereotype.Component;

/**
 * Imports run one after another, across all nodes: the one at work holds a row locked, and a node
 * that dies lets go of it. Within a node they run in the order in which they came.
 */
@Component
class ImportTurn {

  private static final long BETWEEN_TRIES_MS = 100;

  private final DataSource dataSource;
  private final ReentrantLock withinNode = new ReentrantLock(true);
  private final CountDownLatch startUp;

  ImportTurn(DataSource dataSource, @Value("${towerledger.import:}") String startUpImport) {
    this.dataSource = dataSource;
    this.startUp = new CountDownLatch(startUpImport.isBlank() ? 0 : 1);
  }

  /** Does the import at start; all others wait until it has ended, well or not. */
  void first(Runnable work) {
    try {
      work.run();
    } finally {
      startUp.countDown();
    }
  }

  /** Does an import when it is its turn. */
  <T> T inTurn(boolean atStart, Supplier<T> work) {
    try {
      if (!atStart) {
        startUp.await();
      }
    } catch (InterruptedException e) {
      throw interrupted(e);
    }
    withinNode.lock();
    try (Connection connection = dataSource.getConnection()) {
      connection.setAutoCommit(false);
      try {
        while (!locked(connection)) {
          connection.rollback();
          TimeUnit.MILLISECONDS.sleep(BETWEEN_TRIES_MS);
        }
        return work.get();
      } finally {
        connection.rollback();
        connection.setAutoCommit(true);
      }
    } catch (SQLException e) {
      throw new IllegalStateException("the database does not give imports their turn", e);
    } catch (InterruptedException e) {
      throw interrupted(e);
    } finally {
      withinNode.unlock();
    }
  }

  private static IllegalStateException interrupted(InterruptedException e) {
    Thread.currentThread().interrupt();
    return new IllegalStateException("stopped while waiting for another import to end", e);
  }

  private static boolean locked(Connection connection) throws SQLException {
    try (Statement statement = connection.createStatement();
        ResultSet row =
            statement.executeQuery(
                "SELECT id FROM intake_turn WHERE id = 1 FOR UPDATE SKIP LOCKED")) {
      return row.next();
    }
  }
}
