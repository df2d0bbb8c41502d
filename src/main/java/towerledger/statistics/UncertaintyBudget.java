package towerledger.statistics;

import java.util.ArrayList;
import java.util.List;
import org.hipparchus.distribution.continuous.NormalDistribution;
import org.hipparchus.distribution.continuous.TDistribution;

/**
 * An uncertainty budget: the standard uncertainty of a result from those of its inputs.
 *
 * <p>Source: JCGM 100:2008 (GUM), 5.1.2 and 5.2.2 for the combined uncertainty, G.4.1 for the
 * effective degrees of freedom, G.3 for the expanded uncertainty.
 */
public final class UncertaintyBudget {

  /**
   * One input.
   *
   * @param name the input in words
   * @param sensitivity change of the result per unit of the input
   * @param uncertainty standard uncertainty of the input, not negative
   * @param degreesOfFreedom degrees of freedom of that uncertainty; infinite when taken as exact
   */
  public record Input(
      String name, double sensitivity, double uncertainty, double degreesOfFreedom) {

    public Input {
      if (!(uncertainty >= 0) || !Double.isFinite(sensitivity)) {
        throw new IllegalArgumentException(
            "input '%s' has uncertainty %s and sensitivity %s; the first must not be negative, the"
                    .formatted(name, uncertainty, sensitivity)
                + " second finite");
      }
    }

    /** Contribution to the standard uncertainty of the result, never negative. */
    public double contribution() {
      return Math.abs(sensitivity * uncertainty);
    }
  }

  private record Correlation(int first, int second, double coefficient) {}

  private final List<Input> inputs = new ArrayList<>();
  private final List<Correlation> correlations = new ArrayList<>();

  /** Adds an input whose uncertainty is taken as exactly known. */
  public UncertaintyBudget add(String name, double sensitivity, double uncertainty) {
    return add(name, sensitivity, uncertainty, Double.POSITIVE_INFINITY);
  }

  /** Adds an input whose uncertainty has finite degrees of freedom. */
  public UncertaintyBudget add(
      String name, double sensitivity, double uncertainty, double degreesOfFreedom) {
    inputs.add(new Input(name, sensitivity, uncertainty, degreesOfFreedom));
    return this;
  }

  /**
   * States that two inputs, counted from 0 in the order added, go together.
   *
   * @param coefficient correlation coefficient, −1 to 1
   */
  public UncertaintyBudget correlate(int first, int second, double coefficient) {
    if (!(Math.abs(coefficient) <= 1)) {
      throw new IllegalArgumentException(
          "correlation of %s lies outside -1 to 1".formatted(coefficient));
    }
    correlations.add(new Correlation(first, second, coefficient));
    return this;
  }

  /** The inputs in the order added. */
  public List<Input> inputs() {
    return List.copyOf(inputs);
  }

  /** Combined standard uncertainty, JCGM 100 eqs (10) and (16). */
  public double combined() {
    double variance = 0;
    for (Input input : inputs) {
      variance += input.contribution() * input.contribution();
    }
    for (Correlation c : correlations) {
      Input a = inputs.get(c.first());
      Input b = inputs.get(c.second());
      variance +=
          2
              * a.sensitivity()
              * b.sensitivity()
              * a.uncertainty()
              * b.uncertainty()
              * c.coefficient();
    }
    return Math.sqrt(Math.max(0, variance));
  }

  /** Effective degrees of freedom, JCGM 100 eq. (G.2b); infinite when every input's are. */
  public double effectiveDegreesOfFreedom() {
    double sum = 0;
    for (Input input : inputs) {
      sum += Math.pow(input.contribution(), 4) / input.degreesOfFreedom();
    }
    return sum == 0 ? Double.POSITIVE_INFINITY : Math.pow(combined(), 4) / sum;
  }

  /**
   * Half-width of the interval that holds the result with a probability, JCGM 100 eq. (G.1d); the
   * degrees of freedom are truncated to the next lower whole number as G.4.1 advises.
   *
   * @param probability level of confidence, between 0 and 1
   */
  public double expanded(double probability) {
    double degrees = effectiveDegreesOfFreedom();
    double quantile = 0.5 + probability / 2;
    double factor =
        Double.isInfinite(degrees)
            ? new NormalDistribution().inverseCumulativeProbability(quantile)
            : new TDistribution(Math.max(1, Math.floor(degrees)))
                .inverseCumulativeProbability(quantile);
    return factor * combined();
  }

  /** Standard uncertainty of an input known only to lie within ± a half-width (4.3.7). */
  public static double rectangular(double halfWidth) {
    return halfWidth / Math.sqrt(3);
  }

  /** The same where the middle is likelier than the edges (4.3.9). */
  public static double triangular(double halfWidth) {
    return halfWidth / Math.sqrt(6);
  }
}
