package towerledger.quantity;

/** Refuses numbers that are not numbers, naming the quantity. */
final class Finite {

  private Finite() {}

  static void require(String quantity, double value, String unit) {
    if (!Double.isFinite(value)) {
      throw new IllegalArgumentException(
          "%s of %s %s is not a finite number".formatted(quantity, value, unit));
    }
  }

  static void requireAtLeast(String quantity, double value, double limit, String unit) {
    require(quantity, value, unit);
    if (value < limit) {
      throw new IllegalArgumentException(
          "%s of %s %s is below its limit of %s %s".formatted(quantity, value, unit, limit, unit));
    }
  }
}
