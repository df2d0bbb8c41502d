package towerledger.simulation.fleet;

import java.util.ArrayList;
import java.util.Arrays;
import java.util.List;
import java.util.Locale;
import java.util.function.ToDoubleFunction;
import towerledger.simulation.Chance;

/**
 * A figure with its sampling interval: plants, not months, are drawn anew (cluster bootstrap), for
 * a plant's months share one luck.
 *
 * @param value on the fleet itself; NaN where there is nothing to judge
 * @param low 2.5 % quantile over the redraws
 * @param high 97.5 % quantile
 */
record Figure(double value, double low, double high) {

  private static final int REDRAWS = 400;

  static Figure of(List<ScoredPlant> plants, ToDoubleFunction<List<ScoredPlant>> figure) {
    double value = figure.applyAsDouble(plants);
    Chance chance = new Chance(4711);
    double[] redrawn = new double[REDRAWS];
    int count = 0;
    for (int r = 0; r < REDRAWS; r++) {
      List<ScoredPlant> sample = new ArrayList<>(plants.size());
      for (int i = 0; i < plants.size(); i++) {
        sample.add(chance.pick(plants));
      }
      double drawn = figure.applyAsDouble(sample);
      if (!Double.isNaN(drawn)) {
        redrawn[count++] = drawn;
      }
    }
    if (count == 0) {
      return new Figure(value, Double.NaN, Double.NaN);
    }
    double[] sorted = Arrays.copyOf(redrawn, count);
    Arrays.sort(sorted);
    return new Figure(
        value, sorted[(int) (0.025 * (count - 1))], sorted[(int) (0.975 * (count - 1))]);
  }

  /** For instance {@code 0.87 (0.82–0.91)}. */
  String text() {
    if (Double.isNaN(value)) {
      return "–";
    }
    return String.format(Locale.ROOT, "%s (%s–%s)", number(value), number(low), number(high));
  }

  private static String number(double value) {
    if (Double.isInfinite(value)) {
      return "never";
    }
    return Math.abs(value) >= 10
        ? String.format(Locale.ROOT, "%.0f", value)
        : String.format(Locale.ROOT, "%.2f", value);
  }
}
