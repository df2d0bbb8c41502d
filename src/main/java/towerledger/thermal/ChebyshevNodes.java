package towerledger.thermal;

/**
 * Six Chebyshev points of the second kind on 0 … 1, and the polynomial through values at them as
 * powers of its variable.
 */
final class ChebyshevNodes {

  /** Number of nodes, and of coefficients. */
  static final int COUNT = 6;

  private static final double[] NODES = new double[COUNT];
  private static final double[][] TO_POWERS;

  static {
    for (int k = 0; k < COUNT; k++) {
      NODES[k] = 0.5 - 0.5 * Math.cos(Math.PI * k / (COUNT - 1));
    }
    TO_POWERS = inverseVandermonde(NODES);
  }

  private ChebyshevNodes() {}

  static double node(int k) {
    return NODES[k];
  }

  /** Coefficients of the polynomial through values at the nodes. */
  static void powers(double[] values, double[] into, int offset) {
    for (int p = 0; p < COUNT; p++) {
      double sum = 0;
      for (int k = 0; k < COUNT; k++) {
        sum += TO_POWERS[p][k] * values[k];
      }
      into[offset + p] = sum;
    }
  }

  /** Value of the polynomial whose coefficients stand from an offset on. */
  static double value(double[] c, int o, double y) {
    return c[o] + y * (c[o + 1] + y * (c[o + 2] + y * (c[o + 3] + y * (c[o + 4] + y * c[o + 5]))));
  }

  /** Slope of the polynomial whose coefficients stand from an offset on. */
  static double slope(double[] c, int o, double y) {
    return c[o + 1]
        + y * (2 * c[o + 2] + y * (3 * c[o + 3] + y * (4 * c[o + 4] + y * 5 * c[o + 5])));
  }

  private static double[][] inverseVandermonde(double[] nodes) {
    int n = nodes.length;
    double[][] inverse = new double[n][n];
    for (int k = 0; k < n; k++) {
      // coefficients of the Lagrange polynomial that is one at node k
      double[] polynomial = new double[n];
      polynomial[0] = 1;
      int degree = 0;
      for (int j = 0; j < n; j++) {
        if (j == k) {
          continue;
        }
        double scale = 1 / (nodes[k] - nodes[j]);
        degree++;
        for (int p = degree; p > 0; p--) {
          polynomial[p] = scale * (polynomial[p - 1] - nodes[j] * polynomial[p]);
        }
        polynomial[0] = -scale * nodes[j] * polynomial[0];
      }
      for (int p = 0; p < n; p++) {
        inverse[p][k] = polynomial[p];
      }
    }
    return inverse;
  }
}
