package towerledger.statistics;

import java.util.Arrays;

/** A weighted mixture of normal distributions: what several hypotheses together say of a value. */
public final class NormalMixture {

  private static final int START = 64;

  /** Deviations from the mean beyond which nothing lies. */
  private static final double FARTHEST = 8;

  private static final double PER_ROOT_OF_TWO_PI = 1 / Math.sqrt(2 * Math.PI);

  /** How near a quantile is found: an absolute and a relative error. */
  private static final double CLOSE = 1e-7;

  private static final int MOST_STEPS = 100;

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
    if (x > FARTHEST) {
      return z > 0 ? 1 : 0;
    }
    double tail = tail(x, Math.exp(-0.5 * x * x) * PER_ROOT_OF_TWO_PI);
    return z > 0 ? 1 - tail : tail;
  }

  /** What lies beyond a distance, given the density there. */
  private static double tail(double x, double density) {
    double t = 1 / (1 + 0.2316419 * x);
    return density
        * t
        * (0.319381530
            + t * (-0.356563782 + t * (1.781477937 + t * (-1.821255978 + t * 1.330274429))));
  }

  /**
   * The quantile, or a limit where that is higher: mostly the limit, which takes no search to tell.
   */
  public double quantileFrom(double limit, double probability) {
    return cumulative(limit) >= probability ? limit : Math.max(limit, quantile(probability));
  }

  /** A guess at a quantile: on that side of the heaviest component. */
  private double start(double probability) {
    int heaviest = 0;
    for (int i = 1; i < size; i++) {
      heaviest = weight[i] > weight[heaviest] ? i : heaviest;
    }
    return mean[heaviest] + 4 * (probability - 0.5) * deviation[heaviest];
  }

  /**
   * Value below which the mixture lies with a probability: Newton's method on {@link #cumulative},
   * with a step of bisection wherever Newton would leave what is known to hold the value, or closes
   * in too slowly.
   */
  public double quantile(double probability) {
    double low = Double.POSITIVE_INFINITY;
    double high = Double.NEGATIVE_INFINITY;
    for (int i = 0; i < size; i++) {
      low = Math.min(low, mean[i] - FARTHEST * deviation[i]);
      high = Math.max(high, mean[i] + FARTHEST * deviation[i]);
    }
    double wanted = probability * total;
    double at = Math.max(low, Math.min(high, start(probability)));
    double lastStep = high - low;
    for (int i = 0; i < MOST_STEPS && high - low > CLOSE * (1 + Math.abs(low)); i++) {
      double below = 0;
      double density = 0;
      for (int j = 0; j < size; j++) {
        double z = (at - mean[j]) / deviation[j];
        if (z > FARTHEST) {
          below += weight[j];
        } else if (z > -FARTHEST) {
          double bell = Math.exp(-0.5 * z * z) * PER_ROOT_OF_TWO_PI;
          double tail = tail(Math.abs(z), bell);
          below += weight[j] * (z > 0 ? 1 - tail : tail);
          density += weight[j] * bell / deviation[j];
        }
      }
      if (below < wanted) {
        low = at;
      } else {
        high = at;
      }
      double step = (wanted - below) / density;
      double next = at + step;
      if (!(next > low && next < high) || Math.abs(step) > 0.5 * Math.abs(lastStep)) {
        next = 0.5 * (low + high);
      }
      lastStep = next - at;
      if (Math.abs(lastStep) <= CLOSE * (1 + Math.abs(next))) {
        return next;
      }
      at = next;
    }
    return 0.5 * (low + high);
  }
}
