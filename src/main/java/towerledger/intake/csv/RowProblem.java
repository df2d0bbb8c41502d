package towerledger.intake.csv;

/** Why a row cannot be taken, in words that say how to mend it. Costs no stack trace. */
public final class RowProblem extends RuntimeException {

  private static final long serialVersionUID = 1L;

  public RowProblem(String reason) {
    super(reason, null, false, false);
  }

  /** The reason, never empty. */
  public String reason() {
    return String.valueOf(getMessage());
  }

  /** A problem whose words are put together as by {@link String#format}. */
  public static RowProblem of(String reason, Object... arguments) {
    return new RowProblem(String.format(java.util.Locale.ROOT, reason, arguments));
  }

  /** A cell as it is quoted in a reason: long ones are cut, control characters made visible. */
  public static String quoted(String cell) {
    String shown = cell.length() > 60 ? cell.substring(0, 57) + "..." : cell;
    var text = new StringBuilder("'");
    shown.chars().forEach(c -> text.append(Character.isISOControl(c) ? '\uFFFD' : (char) c));
    return text.append('\'').toString();
  }
}
