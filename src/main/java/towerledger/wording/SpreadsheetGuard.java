package towerledger.wording;

/**
 * Keeps spreadsheets from running text as a formula: text that begins with one of {@code = + - @},
 * a tab or a carriage return goes out with an apostrophe before it, and comes in without. Source:
 * OWASP, CSV Injection.
 */
public final class SpreadsheetGuard {

  private SpreadsheetGuard() {}

  /** Text as it is safe to open in a spreadsheet. */
  public static String apply(String text) {
    return !text.isEmpty() && (isRisky(text.charAt(0)) || text.charAt(0) == '\'')
        ? "'" + text
        : text;
  }

  /** Text without the guard; text that carries none stays as it is. */
  public static String undo(String text) {
    return text.length() > 1
            && text.charAt(0) == '\''
            && (isRisky(text.charAt(1)) || text.charAt(1) == '\'')
        ? text.substring(1)
        : text;
  }

  private static boolean isRisky(char first) {
    return first == '='
        || first == '+'
        || first == '-'
        || first == '@'
        || first == '\t'
        || first == '\r';
  }
}
