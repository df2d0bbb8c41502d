package towerledger.balance.facts;

import java.util.OptionalDouble;

/** Refuses values that cannot be, naming the quantity and the limit. */
final class Plausible {

  private Plausible() {}

  static void positive(String quantity, OptionalDouble value, String unit) {
    if (value.isPresent()) {
      positive(quantity, value.getAsDouble(), unit);
    }
  }

  static void positive(String quantity, double value, String unit) {
    if (!(value > 0) || Double.isInfinite(value)) {
      throw new IllegalArgumentException(
          "%s of %s %s is not above 0 %s; leave it out if it is not known"
              .formatted(quantity, value, unit, unit));
    }
  }

  static void notNegative(String quantity, OptionalDouble value, String unit) {
    if (value.isPresent()) {
      notNegative(quantity, value.getAsDouble(), unit);
    }
  }

  static void notNegative(String quantity, double value, String unit) {
    if (!(value >= 0) || Double.isInfinite(value)) {
      throw new IllegalArgumentException(
          "%s of %s %s is below 0 %s; leave it out if it is not known"
              .formatted(quantity, value, unit, unit));
    }
  }

  static void between(String quantity, OptionalDouble value, double low, double high, String unit) {
    if (value.isPresent() && !(value.getAsDouble() >= low && value.getAsDouble() <= high)) {
      throw new IllegalArgumentException(
          "%s of %s %s lies outside %s to %s %s; check its unit"
              .formatted(quantity, value.getAsDouble(), unit, low, high, unit));
    }
  }
}
