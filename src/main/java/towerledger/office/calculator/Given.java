package towerledger.office.calculator;

import java.util.Map;
import java.util.OptionalDouble;

/**
 * The numbers a reader gave, in the units used inside.
 *
 * @param values by name of the question; what stayed empty is not there
 */
record Given(Map<String, Double> values) {

  Given {
    values = Map.copyOf(values);
  }

  /** A number that had to be given. */
  double get(String name) {
    return find(name).orElseThrow(() -> new IllegalArgumentException("no number for " + name));
  }

  OptionalDouble find(String name) {
    Double value = values.get(name);
    return value == null ? OptionalDouble.empty() : OptionalDouble.of(value);
  }
}
