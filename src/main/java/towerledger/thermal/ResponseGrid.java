package towerledger.thermal;

/**
 * Nodes of a response table and where their numbers stand.
 *
 * <p>Wet bulb, dryness and the logarithm of the load are interpolated by the cubic through the four
 * nearest nodes; the cold water by {@link ColdWaterPieces}. The slope with pressure is small and
 * kept at few nodes, linear between them.
 */
final class ResponseGrid {

  /** Wet bulb over liquid water, °C. */
  static final Axis WET_BULB_C =
      Axis.of(-26, -19, -13, -9, -5.5, -2, 2, 6, 10.5, 15, 20, 25, 29.5, 34);

  /** Dryness: depression over {@link #depressionScaleK}. */
  static final Axis DRYNESS = Axis.of(0, 0.04, 0.12, 0.3, 0.6, 1);

  /** Load over design load, of the cells in service. */
  static final double[] LOAD = {0.05, 0.1, 0.2, 0.4, 0.7, 1.1, 1.6};

  static final Axis LOG_LOAD = Axis.ofLogarithms(LOAD);

  /** Which nodes of wet bulb, dryness and load carry a slope with pressure. */
  static final int[] SLOPE_WET_BULB = {0, 2, 5, 8, 10, 12, 13};

  static final int[] SLOPE_DRYNESS = {0, 3, 5};
  static final int[] SLOPE_LOAD = {0, 3, 6};

  /** The parts of the axes that these nodes are. */
  static final Axis.Part FEW_WET_BULB = WET_BULB_C.part(SLOPE_WET_BULB);

  static final Axis.Part FEW_DRYNESS = DRYNESS.part(SLOPE_DRYNESS);
  static final Axis.Part FEW_LOAD = LOG_LOAD.part(SLOPE_LOAD);

  /** Relative change of pressure over which the slope with pressure is taken. */
  static final double PRESSURE_STEP = 0.05;

  /** Hottest cold water in the table, °C. */
  static final double HOTTEST_C = 50;

  /** Depression beyond which the scale of dryness grows no further, K. */
  private static final double HIGHEST_DEPRESSION_K = 90;

  /** Floor of the coldest water, rounded off over a few kelvin, °C. */
  private static final double FLOOR_C = -3;

  private static final double FLOOR_WIDTH_K = 3;

  private ResponseGrid() {}

  /**
   * Depression of the wet bulb below the dry bulb over its scale.
   *
   * @param saturated humidity ratio of air saturated at the wet bulb, kg/kg
   */
  static double dryness(double depressionK, double wetBulbC, double saturated) {
    double utmost = (2501 - 2.326 * wetBulbC) / 1.006 * saturated;
    return depressionK * (utmost + HIGHEST_DEPRESSION_K) / (utmost * HIGHEST_DEPRESSION_K);
  }

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

  /** Place of a node in a table over wet bulb and dryness. */
  static int airNode(int wetBulb, int dryness) {
    return wetBulb * DRYNESS.size() + dryness;
  }

  /** Place of a node in a table over wet bulb, dryness and load. */
  static int node(int airNode, int load) {
    return airNode * LOAD.length + load;
  }

  /** Place of a node in a table over wet bulb and dryness that carries slopes. */
  static int slopeAirNode(int wetBulb, int dryness) {
    return wetBulb * SLOPE_DRYNESS.length + dryness;
  }

  /** Place of a node in a table over wet bulb, dryness and load that carries slopes. */
  static int slopeNode(int slopeAirNode, int load) {
    return slopeAirNode * SLOPE_LOAD.length + load;
  }

  static int airNodes() {
    return WET_BULB_C.size() * DRYNESS.size();
  }

  static int nodes() {
    return airNodes() * LOAD.length;
  }

  static int slopeAirNodes() {
    return SLOPE_WET_BULB.length * SLOPE_DRYNESS.length;
  }

  static int slopeNodes() {
    return slopeAirNodes() * SLOPE_LOAD.length;
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
}
