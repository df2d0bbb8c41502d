package towerledger.account;

import java.util.function.Supplier;
import org.jspecify.annotations.Nullable;
import org.springframework.transaction.support.TransactionCallback;
import org.springframework.transaction.support.TransactionOperations;

/**
 * Writes sessions in transactions of their own. A session that is only read is one statement, which
 * is of one moment by itself: a transaction around it would be one more trip to the database for
 * every page.
 */
final class SessionTransactions implements TransactionOperations {

  private final TransactionOperations own;

  @SuppressWarnings("ThreadLocalUsage") // there is one of it
  private final ThreadLocal<Boolean> reading = ThreadLocal.withInitial(() -> false);

  SessionTransactions(TransactionOperations own) {
    this.own = own;
  }

  /** Does what reads one session. An expired one is deleted then, by one statement too. */
  <T> @Nullable T readOnly(Supplier<@Nullable T> read) {
    reading.set(true);
    try {
      return read.get();
    } finally {
      reading.remove();
    }
  }

  @Override
  public <T extends @Nullable Object> T execute(TransactionCallback<T> action) {
    return reading.get()
        ? TransactionOperations.withoutTransaction().execute(action)
        : own.execute(action);
  }
}
