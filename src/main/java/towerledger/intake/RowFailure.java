package towerledger.intake;

import java.io.IOException;
import java.sql.SQLNonTransientConnectionException;
import java.util.stream.Stream;
import org.jspecify.annotations.Nullable;
import org.slf4j.Logger;
import org.slf4j.LoggerFactory;
import org.springframework.dao.ConcurrencyFailureException;
import org.springframework.dao.DataAccessException;
import org.springframework.dao.DataIntegrityViolationException;
import org.springframework.dao.NonTransientDataAccessException;
import org.springframework.dao.NonTransientDataAccessResourceException;
import org.springframework.transaction.CannotCreateTransactionException;
import towerledger.intake.csv.RowProblem;

/** Tells failures of a row from failures of the database, and puts the former into words. */
final class RowFailure {

  private static final Logger LOG = LoggerFactory.getLogger(RowFailure.class);

  private RowFailure() {}

  /** Whether the database itself failed, so that no row is to blame. */
  static boolean isOutage(RuntimeException e) {
    return (e instanceof DataAccessException
            && !(e instanceof NonTransientDataAccessException)
            && !(e instanceof ConcurrencyFailureException))
        || e instanceof CannotCreateTransactionException
        || e instanceof NonTransientDataAccessResourceException
        || Stream.<Throwable>iterate(e, cause -> cause != null, Throwable::getCause)
            .limit(50)
            .anyMatch(RowFailure::isOfTheMachine);
  }

  /** A full disk, a connection that is no more: the embedded database tells them untranslated. */
  private static boolean isOfTheMachine(Throwable cause) {
    return cause instanceof IOException || cause instanceof SQLNonTransientConnectionException;
  }

  /** Why the row was not taken, in words for whoever mends it. */
  static String wordsOf(RuntimeException e) {
    if (e instanceof RowProblem problem) {
      return problem.reason();
    }
    if (e instanceof DataIntegrityViolationException refused) {
      return "the database refuses the row: "
          + firstLine(refused.getMostSpecificCause().getMessage());
    }
    if (e instanceof ConcurrencyFailureException) {
      return "somebody changed the same thing at the same moment; try the row again";
    }
    String message = e.getMessage();
    if (message != null
        && (e instanceof IllegalArgumentException
            || e.getClass().getName().startsWith("towerledger."))) {
      return message;
    }
    LOG.warn("a row could not be taken for an unforeseen reason", e);
    return "the row could not be taken (%s); check its cells against the description of the file"
        .formatted(message == null ? e.getClass().getSimpleName() : firstLine(message));
  }

  private static String firstLine(@Nullable String message) {
    return message == null ? "no reason given" : message.lines().findFirst().orElse("");
  }
}
