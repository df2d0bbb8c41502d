package towerledger.ledger;

import java.util.HashSet;
import java.util.Set;
import org.jspecify.annotations.Nullable;
import org.springframework.transaction.support.TransactionSynchronization;
import org.springframework.transaction.support.TransactionSynchronizationManager;
import towerledger.site.FactsChanged;

/**
 * What one transaction has marked already: an import touches the same months of a system with every
 * row, and one mark says it all. It ends with the transaction, and a transaction within another has
 * its own, since either may be rolled back alone.
 */
final class MarkedSoFar implements TransactionSynchronization {

  private final Set<FactsChanged.Touched> touched = new HashSet<>();

  private MarkedSoFar() {}

  /** The months marked so far; to be added to. */
  static Set<FactsChanged.Touched> inThisTransaction() {
    if (!TransactionSynchronizationManager.isSynchronizationActive()) {
      return new HashSet<>();
    }
    MarkedSoFar bound = bound();
    if (bound == null) {
      bound = new MarkedSoFar();
      TransactionSynchronizationManager.bindResource(MarkedSoFar.class, bound);
      TransactionSynchronizationManager.registerSynchronization(bound);
    }
    return bound.touched;
  }

  private static @Nullable MarkedSoFar bound() {
    return (MarkedSoFar) TransactionSynchronizationManager.getResource(MarkedSoFar.class);
  }

  @Override
  public void suspend() {
    TransactionSynchronizationManager.unbindResource(MarkedSoFar.class);
  }

  @Override
  public void resume() {
    TransactionSynchronizationManager.bindResource(MarkedSoFar.class, this);
  }

  @Override
  public void afterCompletion(int status) {
    TransactionSynchronizationManager.unbindResourceIfPossible(MarkedSoFar.class);
  }
}
