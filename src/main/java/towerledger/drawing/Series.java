package towerledger.drawing;

import java.util.Arrays;
import java.util.List;
import java.util.OptionalDouble;

/** One value a slot, some of them unknown. Unknown is a gap in the drawing, never a zero. */
public final class Series {

  private final double[] values;

  private Series(double[] values) {
    this.values = values;
  }

  /** A series; an empty value is unknown. */
  public static Series of(List<OptionalDouble> values) {
    return new Series(values.stream().mapToDouble(v -> v.orElse(Double.NaN)).toArray());
  }

  /** A series of known values; NaN stands for unknown. */
  public static Series of(double... values) {
    return new Series(values.clone());
  }

  /** The same value throughout. */
  public static Series constant(double value, int size) {
    double[] values = new double[size];
    Arrays.fill(values, value);
    return new Series(values);
  }

  public int size() {
    return values.length;
  }

  /** Value of a slot; NaN where it is not known. */
  public double value(int slot) {
    return values[slot];
  }

  boolean isKnown(int slot) {
    return Double.isFinite(values[slot]);
  }

  /** Running total; an unknown value adds nothing and leaves a gap. */
  public Series running() {
    double[] sums = new double[values.length];
    double sum = 0;
    for (int slot = 0; slot < values.length; slot++) {
      if (Double.isFinite(values[slot])) {
        sum += values[slot];
        sums[slot] = sum;
      } else {
        sums[slot] = Double.NaN;
      }
    }
    return new Series(sums);
  }

  /** Every value times a factor, as when a unit is changed. */
  public Series times(double factor) {
    return new Series(Arrays.stream(values).map(v -> v * factor).toArray());
  }

  double least() {
    return Arrays.stream(values).filter(Double::isFinite).min().orElse(0);
  }

  double most() {
    return Arrays.stream(values).filter(Double::isFinite).max().orElse(0);
  }
}
