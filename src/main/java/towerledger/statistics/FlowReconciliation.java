package towerledger.statistics;

import org.hipparchus.distribution.continuous.ChiSquaredDistribution;
import org.hipparchus.linear.Array2DRowRealMatrix;
import org.hipparchus.linear.ArrayRealVector;
import org.hipparchus.linear.CholeskyDecomposition;
import org.hipparchus.linear.DecompositionSolver;
import org.hipparchus.linear.RealMatrix;
import org.hipparchus.linear.RealVector;

/**
 * Weighted least-squares reconciliation of measured flows that must satisfy linear balances, with
 * the global test and the generalised likelihood ratio of a bias.
 *
 * <p>Sources: Kuehn and Davidson (1961) and Narasimhan and Jordache (2000) for the reconciled
 * values and tests; Narasimhan and Mah (1987) for the likelihood ratio (formulas from memory,
 * checked against published problems in the tests).
 */
public final class FlowReconciliation {

  /**
   * Verdict on one bias hypothesis.
   *
   * @param statistic twice the log of the likelihood ratio; chi-square with one degree under none
   * @param size most likely size of the bias, in the unit of the measurements
   * @param sizeDeviation standard deviation of that size
   */
  public record Bias(double statistic, double size, double sizeDeviation) {}

  private final RealMatrix balances;
  private final RealVector measured;
  private final RealMatrix covariance;
  private final RealVector imbalance;
  private final DecompositionSolver imbalanceSolver;

  /**
   * A problem.
   *
   * @param balances one row per balance, one column per flow; rows linearly independent
   * @param measured measured flows
   * @param variances variance of each measurement, above 0
   */
  public FlowReconciliation(double[][] balances, double[] measured, double[] variances) {
    if (measured.length != variances.length || balances[0].length != measured.length) {
      throw new IllegalArgumentException(
          "%d flows, %d variances and %d columns of balances; the three must agree"
              .formatted(measured.length, variances.length, balances[0].length));
    }
    this.balances = new Array2DRowRealMatrix(balances);
    this.measured = new ArrayRealVector(measured);
    this.covariance = new Array2DRowRealMatrix(measured.length, measured.length);
    for (int i = 0; i < variances.length; i++) {
      if (!(variances[i] > 0)) {
        throw new IllegalArgumentException(
            "variance %d is %s; it must be above 0".formatted(i, variances[i]));
      }
      covariance.setEntry(i, i, variances[i]);
    }
    this.imbalance = this.balances.operate(this.measured);
    RealMatrix spread = this.balances.multiply(covariance).multiply(this.balances.transpose());
    this.imbalanceSolver = new CholeskyDecomposition(spread).getSolver();
  }

  /** Flows that satisfy every balance: x = y − V·Aᵀ(A·V·Aᵀ)⁻¹A·y. */
  public double[] reconciled() {
    return measured.subtract(adjustment()).toArray();
  }

  /** Standard deviation of each reconciled flow: V − V·Aᵀ(A·V·Aᵀ)⁻¹A·V. */
  public double[] reconciledDeviations() {
    RealMatrix reduction = reduction();
    double[] deviations = new double[measured.getDimension()];
    for (int i = 0; i < deviations.length; i++) {
      deviations[i] = Math.sqrt(Math.max(0, covariance.getEntry(i, i) - reduction.getEntry(i, i)));
    }
    return deviations;
  }

  /** Global test statistic rᵀ(A·V·Aᵀ)⁻¹r, chi-square with one degree per balance. */
  public double globalStatistic() {
    return imbalance.dotProduct(imbalanceSolver.solve(imbalance));
  }

  /** Value that the global statistic exceeds with the given probability when all is sound. */
  public double globalLimit(double falseAlarm) {
    return new ChiSquaredDistribution(balances.getRowDimension())
        .inverseCumulativeProbability(1 - falseAlarm);
  }

  /** Measurement test of each flow: adjustment over its standard deviation. */
  public double[] measurementTests() {
    RealVector adjustment = adjustment();
    RealMatrix reduction = reduction();
    double[] tests = new double[measured.getDimension()];
    for (int i = 0; i < tests.length; i++) {
      tests[i] = adjustment.getEntry(i) / Math.sqrt(reduction.getEntry(i, i));
    }
    return tests;
  }

  /** Likelihood ratio of a bias in one measurement. */
  public Bias biasOfMeasurement(int flow) {
    return biasOf(balances.getColumn(flow));
  }

  /**
   * Likelihood ratio of a bias that enters the balances through a column: a leak out of one balance
   * has a one in its row.
   *
   * @param column effect of a unit bias on each balance's imbalance
   */
  public Bias biasOf(double[] column) {
    RealVector effect = new ArrayRealVector(column);
    RealVector weighed = imbalanceSolver.solve(effect);
    double projection = weighed.dotProduct(imbalance);
    double information = weighed.dotProduct(effect);
    if (!(information > 0)) {
      throw new IllegalArgumentException("the bias touches no balance, so nothing speaks of it");
    }
    return new Bias(
        projection * projection / information,
        projection / information,
        1 / Math.sqrt(information));
  }

  private RealVector adjustment() {
    return covariance.operate(balances.transpose().operate(imbalanceSolver.solve(imbalance)));
  }

  private RealMatrix reduction() {
    RealMatrix projected = balances.multiply(covariance);
    return projected.transpose().multiply(imbalanceSolver.solve(projected));
  }
}
