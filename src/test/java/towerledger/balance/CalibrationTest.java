package towerledger.balance;

import static org.assertj.core.api.Assertions.assertThat;
import static org.assertj.core.api.Assertions.within;

import java.util.Random;
import org.junit.jupiter.api.Test;

/**
 * The calibration, written out number by number, against the textbook's matrices: gain K =
 * P·s/(s'·P·s + R), x′ = x + K·r, P′ = P − K·s'·P (Kalman 1960, from memory).
 */
class CalibrationTest {

  private static final int N = 6;
  private static final double VARIANCE = 0.04;

  private final Random random = new Random(5);

  @Test
  void measurementsMoveItAsTheMatricesDo() {
    Calibration calibration = widened();
    double[] mean = new double[N];
    double[][] covariance = new double[N][N];
    for (int i = 0; i < N; i++) {
      covariance[i][i] = VARIANCE * (i + 1);
    }
    for (int k = 0; k < 12; k++) {
      double[] slope = random.doubles(N, -1, 1).toArray();
      double residual = random.nextGaussian() * 0.1;
      double variance = 0.02 + random.nextDouble() * 0.05;
      calibration.update(
          residual, slope[0], slope[1], slope[2], slope[3], slope[4], slope[5], variance, 0, 1);
      takeIn(mean, covariance, residual, slope, variance);
      if (k == 5) {
        calibration.fadeScatter(0.6, 0.1);
        fade(mean, covariance, 2, 0.6, 0.1);
        calibration.fadeHabit(0.8, 0.02);
        fade(mean, covariance, 1, 0.8, 0.02);
      }
      if (k == 8) {
        calibration.setSize(0, 0.1);
        forget(mean, covariance, 5, 0.1);
        calibration.setLoad(0, 0.03);
        forget(mean, covariance, 0, 0.03);
      }
      assertAlike(calibration, mean, covariance);
    }
  }

  /** The mean and covariance of a mixture are those of its parts and of how far they lie apart. */
  @Test
  void mixesAsTheMomentsOfAMixture() {
    Calibration one = widened();
    Calibration other = widened();
    one.update(0.2, 1, 0.3, -0.4, 0.5, -0.9, 0.8, 0.02, 0, 1);
    other.update(-0.1, 0.4, -0.6, 0.2, 0.9, 0.6, -0.7, 0.03, 0, 1);
    double share = 0.3;
    double size = (1 - share) * one.size() + share * other.size();
    double load = (1 - share) * one.load() + share * other.load();
    double sizes =
        (1 - share) * (one.sizeVariance() + Math.pow(one.size() - size, 2))
            + share * (other.sizeVariance() + Math.pow(other.size() - size, 2));
    double loads =
        (1 - share) * (one.loadVariance() + Math.pow(one.load() - load, 2))
            + share * (other.loadVariance() + Math.pow(other.load() - load, 2));

    one.mix(other, share);

    assertThat(one.size()).isCloseTo(size, within(1e-12));
    assertThat(one.load()).isCloseTo(load, within(1e-12));
    assertThat(one.sizeVariance()).isCloseTo(sizes, within(1e-12));
    assertThat(one.loadVariance()).isCloseTo(loads, within(1e-12));
  }

  private static Calibration widened() {
    Calibration calibration = new Calibration();
    calibration.widenLoad(VARIANCE);
    calibration.widenHabit(2 * VARIANCE);
    calibration.widenScatter(3 * VARIANCE);
    calibration.widenBase(4 * VARIANCE);
    calibration.widenEven(5 * VARIANCE);
    calibration.widenSize(6 * VARIANCE);
    return calibration;
  }

  private static void takeIn(
      double[] mean, double[][] covariance, double residual, double[] slope, double variance) {
    double[] along = new double[N];
    double whole = variance;
    for (int i = 0; i < N; i++) {
      for (int j = 0; j < N; j++) {
        along[i] += covariance[i][j] * slope[j];
      }
      whole += slope[i] * along[i];
    }
    for (int i = 0; i < N; i++) {
      mean[i] += along[i] / whole * residual;
      for (int j = 0; j < N; j++) {
        covariance[i][j] -= along[i] * along[j] / whole;
      }
    }
  }

  private static void fade(
      double[] mean, double[][] covariance, int quantity, double kept, double variance) {
    mean[quantity] *= kept;
    for (int i = 0; i < N; i++) {
      covariance[quantity][i] *= kept;
      covariance[i][quantity] *= kept;
    }
    covariance[quantity][quantity] += variance;
  }

  private static void forget(double[] mean, double[][] covariance, int quantity, double variance) {
    mean[quantity] = 0;
    for (int i = 0; i < N; i++) {
      covariance[quantity][i] = 0;
      covariance[i][quantity] = 0;
    }
    covariance[quantity][quantity] = variance;
  }

  private static void assertAlike(Calibration calibration, double[] mean, double[][] covariance) {
    double[] told = {
      calibration.load(),
      calibration.habit(),
      calibration.scatter(),
      calibration.base(),
      calibration.even(),
      calibration.size()
    };
    assertThat(told).containsExactly(mean, within(1e-12));
    assertThat(calibration.loadVariance()).isCloseTo(covariance[0][0], within(1e-12));
    assertThat(calibration.scatterVariance()).isCloseTo(covariance[2][2], within(1e-12));
    assertThat(calibration.baseVariance()).isCloseTo(covariance[3][3], within(1e-12));
    assertThat(calibration.sizeVariance()).isCloseTo(covariance[5][5], within(1e-12));
  }
}
