package towerledger.thermal;

/**
 * Nodes of a response table and the weights between them.
 *
 * <p>Wet bulb and the logarithm of the load are interpolated by the cubic through the four nearest
 * nodes, and so is dryness; the cold-water coordinate by one polynomial over all its nodes. The
 * slope with pressure is small and kept at few nodes, linear between them.
 */
final class ResponseGrid {

  /** Wet bulb over liquid water, °C. */
  static final double[] WET_BULB_C = {
    -26, -19, -13, -9, -5.5, -2, 2, 6, 10.5, 15, 20, 25, 29.5, 34
  };

  /** Load over design load, of the cells in service. */
  static final double[] LOAD = {0.05, 0.1, 0.2, 0.4, 0.7, 1.1, 1.6};

  /** Dryness: depression over {@link #depressionScaleK}. */
  static final double[] DRYNESS = {0, 0.04, 0.12, 0.3, 0.6, 1};

  /** Depression beyond which the scale of dryness grows no further, K. */
  private static final double HIGHEST_DEPRESSION_K = 90;

  /** Which nodes of wet bulb, dryness and load carry a slope with pressure. */
  static final int[] SLOPE_WET_BULB = {0, 2, 5, 8, 10, 12, 13};

  static final int[] SLOPE_DRYNESS = {0, 3, 5};
  static final int[] SLOPE_LOAD = {0, 3, 6};

  /** Relative change of pressure over which the slope with pressure is taken. */
  static final double PRESSURE_STEP = 0.05;

  /** Number of nodes (and coefficients) along the cold-water coordinate. */
  static final int COLD = ChebyshevNodes.COUNT;

  /** Hottest cold water in the table, °C. */
  static final double HOTTEST_C = 50;

  /** Floor of the coldest water, rounded off over a few kelvin, °C. */
  private static final double FLOOR_C = -3;

  private static final double FLOOR_WIDTH_K = 3;

  /** Coefficients held at one node of wet bulb, dryness, pressure and load. */
  static final int BLOCK = 2 * COLD;

  static final double[] LOG_LOAD = new double[LOAD.length];

  static {
    for (int i = 0; i < LOAD.length; i++) {
      LOG_LOAD[i] = Math.log(LOAD[i]);
    }
  }

  private ResponseGrid() {}

  /**
   * Scale of the depression of the wet bulb below the dry bulb: half the harmonic mean of the
   * depression of air without any vapour and a constant, K.
   *
   * @param saturated humidity ratio of air saturated at the wet bulb, kg/kg
   */
  static double depressionScaleK(double wetBulbC, double saturated) {
    double utmost = (2501 - 2.326 * wetBulbC) * saturated / 1.006;
    return utmost * HIGHEST_DEPRESSION_K / (utmost + HIGHEST_DEPRESSION_K);
  }

  /** Start of the block of a load at a node of the air. */
  static int offset(int airNode, int load) {
    return (airNode * LOAD.length + load) * BLOCK;
  }

  /** Place of a node in a table over wet bulb and dryness. */
  static int airNode(int wetBulb, int dryness) {
    return wetBulb * DRYNESS.length + dryness;
  }

  /** Place of a node in a table over wet bulb and dryness that carries slopes. */
  static int slopeNode(int wetBulb, int dryness) {
    return wetBulb * SLOPE_DRYNESS.length + dryness;
  }

  /** Start of the block of slopes of a load at a node of the air. */
  static int slopeOffset(int slopeNode, int load) {
    return (slopeNode * SLOPE_LOAD.length + load) * BLOCK;
  }

  static int airNodes() {
    return WET_BULB_C.length * DRYNESS.length;
  }

  static int slopeNodes() {
    return SLOPE_WET_BULB.length * SLOPE_DRYNESS.length;
  }

  /**
   * Coldest hot water from which fans that alternate are tabulated: near the limit of cooling,
   * rounded off where water freezes, °C.
   */
  static double coolestHotC(double limitC) {
    return floored(limitC + 1);
  }

  /** A temperature held above a few kelvin of frost by a smooth floor, °C. */
  static double floored(double temperatureC) {
    return FLOOR_C + FLOOR_WIDTH_K * Math.log1p(Math.exp((temperatureC - FLOOR_C) / FLOOR_WIDTH_K));
  }

  /** First of the four nodes around a wet bulb. */
  static int wetBulbWindow(double wetBulbC) {
    return window(WET_BULB_C, wetBulbC);
  }

  /** First of the four nodes around a logarithm of load. */
  static int loadWindow(double logLoad) {
    return window(LOG_LOAD, logLoad);
  }

  static void wetBulbWeights(int first, double wetBulbC, double[] weights) {
    cubic(WET_BULB_C, first, wetBulbC, weights);
  }

  /** First of the four nodes around a dryness. */
  static int drynessWindow(double dryness) {
    return window(DRYNESS, dryness);
  }

  static void drynessWeights(int first, double dryness, double[] weights) {
    cubic(DRYNESS, first, dryness, weights);
  }

  static void loadWeights(int first, double logLoad, double[] weights) {
    cubic(LOG_LOAD, first, logLoad, weights);
  }

  /** Place among a few nodes of the last that is not above a value, below the last but one. */
  static int slopeInterval(double[] nodes, int[] few, double x) {
    int i = 0;
    while (i < few.length - 2 && x > nodes[few[i + 1]]) {
      i++;
    }
    return i;
  }

  /** Share of the way from one of a few nodes to the next. */
  static double slopeShare(double[] nodes, int[] few, int i, double x) {
    double from = nodes[few[i]];
    return (x - from) / (nodes[few[i + 1]] - from);
  }

  private static int window(double[] nodes, double x) {
    int i = 1;
    while (i < nodes.length - 3 && x > nodes[i + 1]) {
      i++;
    }
    return i - 1;
  }

  /** Lagrange's weights of the four nodes from {@code first} on. */
  private static void cubic(double[] nodes, int first, double x, double[] weights) {
    double a = nodes[first];
    double b = nodes[first + 1];
    double c = nodes[first + 2];
    double d = nodes[first + 3];
    double xa = x - a;
    double xb = x - b;
    double xc = x - c;
    double xd = x - d;
    weights[0] = xb * xc * xd / ((a - b) * (a - c) * (a - d));
    weights[1] = xa * xc * xd / ((b - a) * (b - c) * (b - d));
    weights[2] = xa * xb * xd / ((c - a) * (c - b) * (c - d));
    weights[3] = xa * xb * xc / ((d - a) * (d - b) * (d - c));
  }
}
