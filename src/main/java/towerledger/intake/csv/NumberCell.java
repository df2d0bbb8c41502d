package towerledger.intake.csv;

import java.math.BigDecimal;

/** Reads numbers as files write them: plain decimals with a point, nothing else. */
final class NumberCell {

  private static final int LONGEST = 60;

  private NumberCell() {}

  static double parse(String name, String cell) {
    requirePlain(name, cell);
    try {
      double value = Double.parseDouble(cell);
      if (Double.isFinite(value)) {
        return value;
      }
    } catch (NumberFormatException e) {
      throw notANumber(name, cell);
    }
    throw RowProblem.of("%s of %s is too large", name, RowProblem.quoted(cell));
  }

  static BigDecimal decimal(String name, String cell) {
    requirePlain(name, cell);
    double size = parse(name, cell);
    if (Math.abs(size) >= 1e18 || (size != 0 && Math.abs(size) < 1e-18)) {
      throw RowProblem.of(
          "%s of %s has more digits than a meter or a bill; check it",
          name, RowProblem.quoted(cell));
    }
    try {
      return new BigDecimal(cell);
    } catch (NumberFormatException e) {
      throw notANumber(name, cell);
    }
  }

  private static void requirePlain(String name, String cell) {
    if (cell.length() > LONGEST) {
      throw notANumber(name, cell);
    }
    for (int i = 0; i < cell.length(); i++) {
      char c = cell.charAt(i);
      if (c == ',') {
        throw RowProblem.of(
            "%s %s holds a comma; write the number with a point and without thousands separators",
            name, RowProblem.quoted(cell));
      }
      if (!((c >= '0' && c <= '9') || c == '.' || c == '-' || c == '+' || c == 'e' || c == 'E')) {
        throw notANumber(name, cell);
      }
    }
  }

  private static RowProblem notANumber(String name, String cell) {
    return RowProblem.of(
        "%s %s is not a number; write digits with a point, or leave it empty if not known",
        name, RowProblem.quoted(cell));
  }

  static String shown(double bound) {
    return bound == Math.rint(bound) && Math.abs(bound) < 1e15
        ? Long.toString((long) bound)
        : Double.toString(bound);
  }
}
