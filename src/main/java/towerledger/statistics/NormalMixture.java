package towerledger.statistics;

import java.util.Arrays;
import java.util.Comparator;

/** A weighted mixture of normal distributions: what several hypotheses together say of a value. */
public final class NormalMixture {

  private static final int START = 64;
  private static final double ROUNDING = 1e-12;

  private double[] weight = new double[START];
  private double[] mean = new double[START];
  private double[] deviation = new double[START];
  private int size;
  private double total;

  /**
   * Adds a component.
   *
   * @param componentWeight relative weight, not negative; the sum need not be one
   * @param componentMean its mean
   * @param componentDeviation its standard deviation, above 0
   */
  public void add(double componentWeight, double componentMean, double componentDeviation) {
    if (!(componentWeight >= 0) || !(componentDeviation > 0)) {
      throw new IllegalArgumentException(
          "component of weight %s and deviation %s; the first must not be negative, the second above 0"
              .formatted(componentWeight, componentDeviation));
    }
    if (size == weight.length) {
      weight = Arrays.copyOf(weight, 2 * size);
      mean = Arrays.copyOf(mean, 2 * size);
      deviation = Arrays.copyOf(deviation, 2 * size);
    }
    weight[size] = componentWeight;
    mean[size] = componentMean;
    deviation[size] = componentDeviation;
    size++;
    total += componentWeight;
  }

  /** Mean of the mixture. */
  public double mean() {
    double sum = 0;
    for (int i = 0; i < size; i++) {
      sum += weight[i] * mean[i];
    }
    return sum / total;
  }

  /** Probability that the value lies at or below a limit. */
  public double cumulative(double limit) {
    double sum = 0;
    for (int i = 0; i < size; i++) {
      double z = (limit - mean[i]) / deviation[i];
      sum += weight[i] * standardCumulative(z);
    }
    return sum / total;
  }

  /**
   * Cumulative standard normal distribution by Abramowitz and Stegun, Handbook of Mathematical
   * Functions, 26.2.17 (coefficients from memory, checked in the tests); error below 7.5e-8. Quick,
   * where the library's error function takes a continued fraction.
   */
  static double standardCumulative(double z) {
    double x = Math.abs(z);
    if (x > 8) {
      return z > 0 ? 1 : 0;
    }
    double t = 1 / (1 + 0.2316419 * x);
    double tail =
        Math.exp(-0.5 * x * x)
            / Math.sqrt(2 * Math.PI)
            * t
            * (0.319381530
                + t * (-0.356563782 + t * (1.781477937 + t * (-1.821255978 + t * 1.330274429))));
    return z > 0 ? 1 - tail : tail;
  }

  /** Value below which the mixture lies with a probability, found by bisection. */
  public double quantile(double probability) {
    double low = Double.POSITIVE_INFINITY;
    double high = Double.NEGATIVE_INFINITY;
    for (int i = 0; i < size; i++) {
      low = Math.min(low, mean[i] - 8 * deviation[i]);
      high = Math.max(high, mean[i] + 8 * deviation[i]);
    }
    Integer[] heaviestFirst = new Integer[size];
    Arrays.setAll(heaviestFirst, i -> i);
    Arrays.sort(heaviestFirst, Comparator.comparingDouble(i -> -weight[i]));
    for (int i = 0; i < 50 && high - low > 1e-4 * (1 + Math.abs(low)); i++) {
      double middle = 0.5 * (low + high);
      if (liesBelow(middle, probability, heaviestFirst)) {
        low = middle;
      } else {
        high = middle;
      }
    }
    return 0.5 * (low + high);
  }

  /**
   * Whether {@link #cumulative} of a limit lies below a probability: told as soon as the components
   * not yet looked at could not change it.
   */
  private boolean liesBelow(double limit, double probability, Integer[] order) {
    double wanted = probability * total;
    double sum = 0;
    double rest = total;
    for (int i : order) {
      sum += weight[i] * standardCumulative((limit - mean[i]) / deviation[i]);
      rest -= weight[i];
      if (sum >= wanted) {
        return false;
      }
      if (sum + rest < wanted - ROUNDING * total) {
        return true;
      }
    }
    return true;
  }
}
