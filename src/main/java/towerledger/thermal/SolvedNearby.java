package towerledger.thermal;

/**
 * Solutions at the nodes already computed of a response table, from which the next is foretold so
 * closely that few tries find it. The nodes come by wet bulb, and for each wet bulb by dryness.
 */
final class SolvedNearby {

  private static final int COLUMNS = ResponseGrid.LOAD.length;
  private static final int PLACES = COLUMNS * ChebyshevNodes.COUNT;

  /** By dryness, then load and cold water: this wet bulb, the last, and the one before. */
  private Solutions now = new Solutions();

  private Solutions last = new Solutions();
  private Solutions before = new Solutions();

  /** Solutions at one wet bulb; no air stands for none. */
  private static final class Solutions {
    final double[][] air = new double[ResponseGrid.DRYNESS.size()][PLACES];
    final double[][] share = new double[ResponseGrid.DRYNESS.size()][PLACES];
    final double[][] slope = new double[ResponseGrid.DRYNESS.size()][PLACES];
  }

  static int place(int load, int coldWater) {
    return load * ChebyshevNodes.COUNT + coldWater;
  }

  /** Begins a wet bulb. */
  void begin() {
    Solutions oldest = before;
    before = last;
    last = now;
    now = oldest;
  }

  /**
   * Keeps a solution.
   *
   * @param air dry air over water, kg/kg
   * @param share water evaporated over water entering
   * @param slope see {@link towerledger.thermal.fill.CounterflowFill#relativeSlope()}
   */
  void put(int dryness, int place, double air, double share, double slope) {
    now.air[dryness][place] = air;
    now.share[dryness][place] = share;
    now.slope[dryness][place] = slope;
  }

  double air(int dryness, int place) {
    return now.air[dryness][place];
  }

  double share(int dryness, int place) {
    return now.share[dryness][place];
  }

  double slope(int dryness, int place) {
    return now.slope[dryness][place];
  }

  /** The air to expect at a node not yet solved; 0 where nothing is known. */
  double foretoldAir(int dryness, int place) {
    return foretold(now.air, last.air, before.air, dryness, place);
  }

  double foretoldShare(int dryness, int place) {
    return foretold(now.share, last.share, before.share, dryness, place);
  }

  double foretoldSlope(int dryness, int place) {
    double atLast = last.slope[dryness][place];
    return atLast != 0 || dryness == 0 ? atLast : now.slope[dryness - 1][place];
  }

  /** As the last wet bulb changed, or as the dryness changed there, so it goes on: by ratios. */
  private static double foretold(
      double[][] now, double[][] last, double[][] before, int dryness, int place) {
    double atLast = last[dryness][place];
    if (dryness == 0) {
      double atFirst = before[0][place];
      return atFirst == 0 ? atLast : atLast * atLast / atFirst;
    }
    double drier = now[dryness - 1][place];
    double drierAtLast = last[dryness - 1][place];
    return drierAtLast == 0 ? drier : drier * atLast / drierAtLast;
  }
}
