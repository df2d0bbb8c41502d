package towerledger.simulation;

import java.util.List;
import java.util.SplittableRandom;

/**
 * A seeded stream of chance. A branch depends on the seed and its name alone, never on how much was
 * drawn before, so a plant with a fault and its sound twin see the same luck.
 */
public final class Chance {

  private final long seed;
  private final SplittableRandom random;
  private double spare = Double.NaN;

  public Chance(long seed) {
    this.seed = seed;
    this.random = new SplittableRandom(seed);
  }

  /** An independent stream for one purpose. */
  public Chance branch(String name) {
    long mixed = seed * 0x9E3779B97F4A7C15L;
    for (int i = 0; i < name.length(); i++) {
      mixed = (mixed ^ name.charAt(i)) * 0x100000001B3L;
      mixed ^= mixed >>> 29;
    }
    return new Chance(mixed);
  }

  /** Evenly between two bounds. */
  public double between(double low, double high) {
    return low + (high - low) * random.nextDouble();
  }

  /** A whole number between two bounds, both included. */
  public int wholeBetween(int low, int high) {
    return random.nextInt(low, high + 1);
  }

  public boolean happens(double probability) {
    return random.nextDouble() < probability;
  }

  public <T> T pick(List<T> choices) {
    return choices.get(random.nextInt(choices.size()));
  }

  /** Standard normal, by the polar method (Marsaglia and Bray 1964). */
  public double gaussian() {
    if (!Double.isNaN(spare)) {
      double value = spare;
      spare = Double.NaN;
      return value;
    }
    double u;
    double v;
    double s;
    do {
      u = 2 * random.nextDouble() - 1;
      v = 2 * random.nextDouble() - 1;
      s = u * u + v * v;
    } while (s >= 1 || s == 0);
    double scale = StrictMath.sqrt(-2 * StrictMath.log(s) / s);
    spare = v * scale;
    return u * scale;
  }

  /** A factor around one whose logarithm has the given standard deviation. */
  public double factor(double logSd) {
    return Math.exp(logSd * gaussian());
  }

  /**
   * A stationary wandering series (first-order autoregression).
   *
   * @param length how many steps
   * @param memory steps after which a deviation has faded to 1/e
   * @param sd standard deviation of the series
   */
  public double[] wandering(int length, double memory, double sd) {
    double keep = Math.exp(-1 / memory);
    double push = sd * Math.sqrt(1 - keep * keep);
    double[] series = new double[length];
    double value = sd * gaussian();
    for (int i = 0; i < length; i++) {
      series[i] = value;
      value = keep * value + push * gaussian();
    }
    return series;
  }
}
