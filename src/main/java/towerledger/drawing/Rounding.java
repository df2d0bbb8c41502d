package towerledger.drawing;

import java.math.BigDecimal;
import java.math.RoundingMode;

/** To which decimal place a figure is rounded, and how. */
final class Rounding {

  /** Whole numbers below it, and their halves, are doubles exactly. */
  static final double LARGEST_WHOLE = 1e15;

  private Rounding() {}

  /** The wider side of an interval. */
  static double halfWidth(double value, double low, double high) {
    return Math.max(Math.max(high - value, value - low), 1e-9);
  }

  /** Whether the sides of an interval differ by more than a quarter. */
  static boolean isLopsided(double value, double low, double high) {
    double up = high - value;
    double down = value - low;
    return Math.abs(up - down) > 0.25 * Math.max(up, down);
  }

  /** Decimal place of the second significant digit. */
  static int place(double halfWidth) {
    return (int) Math.floor(Math.log10(halfWidth)) - 1;
  }

  /** Halves away from zero, exactly. */
  static double round(double value, int place) {
    double size = Math.abs(value);
    if (place < 0 || size >= LARGEST_WHOLE || place > 15) {
      return new BigDecimal(value).setScale(-place, RoundingMode.HALF_UP).doubleValue();
    }
    double unit = Math.pow(10, place);
    double rest = size % unit; // exact, and so is what is left
    double rounded = size - rest + (rest >= unit / 2 ? unit : 0);
    return value < 0 && rounded > 0 ? -rounded : rounded;
  }
}
