package towerledger;

import java.sql.SQLException;
import java.util.ArrayList;
import java.util.List;
import org.jspecify.annotations.Nullable;
import org.springframework.boot.diagnostics.FailureAnalysis;
import org.springframework.boot.diagnostics.FailureAnalyzer;

/**
 * Says in words why the ledger did not start and which setting mends it, where an operator would
 * otherwise have to look for it among some hundred lines of the program's inside.
 */
class StartFailure implements FailureAnalyzer {

  private static final String DATA =
      "Name in TOWERLEDGER_DATA a folder that the program may write to, on a disk with room.";
  private static final String DATABASE =
      "Look at SPRING_DATASOURCE_URL, and whether the database runs and takes connections from here.";
  private static final String LOGIN =
      "Look at SPRING_DATASOURCE_USERNAME and SPRING_DATASOURCE_PASSWORD.";
  private static final String SETTING =
      "Mend the setting and start again; docs/operations.md lists them all.";

  @Override
  public @Nullable FailureAnalysis analyze(Throwable failure) {
    List<Throwable> causes = new ArrayList<>();
    for (Throwable cause = failure;
        cause != null && !causes.contains(cause);
        cause = cause.getCause()) {
      causes.add(cause);
    }
    for (Throwable cause : causes) {
      FailureAnalysis found =
          cause instanceof SQLException sql
              ? database(sql, causes.get(causes.size() - 1))
              : setting(cause);
      if (found != null) {
        return found;
      }
    }
    return null;
  }

  private static @Nullable FailureAnalysis database(SQLException refusal, Throwable root) {
    if (refusal.getClass().getName().startsWith("org.h2.")) {
      // codes of org.h2.api.ErrorCode
      return switch (refusal.getErrorCode()) {
        case 90020 ->
            told(
                "Another process has the embedded database open.",
                "Stop it, or name another folder in TOWERLEDGER_DATA. More than one node needs"
                    + " PostgreSQL.",
                refusal);
        case 90030 ->
            told(
                "The file of the embedded database is damaged: " + refusal.getMessage(),
                "Put back the newest copy; docs/operations.md says how.",
                refusal);
        case 90028, 90031, 90034, 90062 ->
            told("The embedded database cannot be kept: " + root.getMessage(), DATA, refusal);
        default -> null;
      };
    }
    String state = String.valueOf(refusal.getSQLState());
    if (state.startsWith("08")) {
      return told("The database does not answer: " + refusal.getMessage(), DATABASE, refusal);
    }
    if (state.equals("3D000")) {
      return told("There is no such database: " + refusal.getMessage(), DATABASE, refusal);
    }
    return state.startsWith("28")
        ? told("The database refuses the login: " + refusal.getMessage(), LOGIN, refusal)
        : null;
  }

  /** A value that the program itself refused, or a port there is not. */
  private static @Nullable FailureAnalysis setting(Throwable refusal) {
    String says = String.valueOf(refusal.getMessage());
    if (refusal instanceof IllegalArgumentException && says.startsWith("port out of range")) {
      return told(
          "There is no such port: " + says, "Give TOWERLEDGER_PORT from 1 to 65535.", refusal);
    }
    if (refusal instanceof NumberFormatException) {
      return told("A setting is no number: " + says, SETTING, refusal);
    }
    if (refusal instanceof IllegalArgumentException && says.startsWith("'url' must start")) {
      return told("There is no such database: " + says, DATABASE, refusal);
    }
    StackTraceElement[] thrown = refusal.getStackTrace();
    boolean own =
        refusal instanceof RuntimeException
            && refusal.getCause() == null
            && thrown.length > 0
            && thrown[0].getClassName().startsWith("towerledger.");
    return own ? told(says, SETTING, refusal) : null;
  }

  private static FailureAnalysis told(String what, String action, Throwable cause) {
    return new FailureAnalysis(what, action, cause);
  }
}
