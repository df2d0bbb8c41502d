package towerledger.intake.csv;

import java.math.BigDecimal;
import java.math.MathContext;
import java.math.RoundingMode;

/** Reads numbers as files write them: plain decimals with a point, nothing else. */
final class NumberCell {

  private static final int LONGEST = 60;

  private NumberCell() {}

  /** Digits whose number a double holds exactly, and powers of ten that it does. */
  private static final int EXACT_DIGITS = 15;

  private static final double[] EXACT_POWERS = {
    1, 1e1, 1e2, 1e3, 1e4, 1e5, 1e6, 1e7, 1e8, 1e9, 1e10, 1e11, 1e12, 1e13, 1e14, 1e15
  };

  static double parse(String name, String cell) {
    double exact = shortDecimal(cell);
    return Double.isNaN(exact) ? parseAny(name, cell) : exact;
  }

  /**
   * Digits with at most one point among them, few enough that the quotient of two exact doubles is
   * the number rounded once, as {@link Double#parseDouble} rounds it (Clinger 1990, How to read
   * floating point numbers accurately, section 3). NaN for any other text.
   */
  private static double shortDecimal(String cell) {
    int length = cell.length();
    int start = length > 0 && cell.charAt(0) == '-' ? 1 : 0;
    if (length - start > EXACT_DIGITS) {
      return Double.NaN;
    }
    long digits = 0;
    int count = 0;
    int decimals = -1;
    for (int i = start; i < length; i++) {
      char c = cell.charAt(i);
      if (c >= '0' && c <= '9') {
        digits = digits * 10 + (c - '0');
        count++;
        decimals += decimals >= 0 ? 1 : 0;
      } else if (c == '.' && decimals < 0) {
        decimals = 0;
      } else {
        return Double.NaN;
      }
    }
    if (count == 0) {
      return Double.NaN;
    }
    double value = decimals > 0 ? digits / EXACT_POWERS[decimals] : digits;
    return start == 1 ? -value : value;
  }

  private static double parseAny(String name, String cell) {
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

  /** A bound as another unit has it, to four digits and never beyond what is taken. */
  static String shown(double bound, RoundingMode inward) {
    return new BigDecimal(bound)
        .round(new MathContext(4, inward))
        .stripTrailingZeros()
        .toPlainString();
  }

  static String shown(double bound) {
    return bound == Math.rint(bound) && Math.abs(bound) < 1e15
        ? Long.toString((long) bound)
        : Double.toString(bound);
  }
}
