package towerledger.thermal;

/**
 * Numbers of a response table; the arrays are shared and must not be changed. Slopes are changes
 * with relative pressure and stand at fewer nodes.
 *
 * @param rangeK design range, K
 * @param fanStates air flows between which the fans alternate, 0 for variable speed
 * @param limitC limit of cooling at each node of wet bulb and dryness, °C
 * @param limitSlopes its slopes, K
 * @param lowest coldest water of the table above the limit, at each node of wet bulb and load, K
 * @param stops cold-water coordinates with all the air and with the least, at every node
 * @param stopSlopes their slopes
 * @param evaporation for each piece of the cold water: its coefficients at every node
 * @param evaporationSlopes their slopes
 * @param alternating coefficients of alternating fans at each node of wet bulb and dryness
 * @param alternatingSlopes slopes of these
 */
record ResponseNodes(
    double rangeK,
    int fanStates,
    double[] limitC,
    double[] limitSlopes,
    double[] lowest,
    double[] stops,
    double[] stopSlopes,
    double[][] evaporation,
    double[][] evaporationSlopes,
    double[] alternating,
    double[] alternatingSlopes) {

  /** Stops held at a node: all the air, then the least. */
  static final int STOPS = 2;

  static ResponseNodes empty(double rangeK, int fanStates) {
    int air = ResponseGrid.airNodes();
    int slopeAir = ResponseGrid.slopeAirNodes();
    int nodes = ResponseGrid.nodes();
    int slopeNodes = ResponseGrid.slopeNodes();
    int fans = fanStates * AlternatingFans.COEFFICIENTS;
    int pieces = ColdWaterPieces.COUNT;
    return new ResponseNodes(
        rangeK,
        fanStates,
        new double[air],
        new double[slopeAir],
        new double[ResponseGrid.WET_BULB_C.size() * ResponseGrid.LOAD.length],
        new double[nodes * STOPS],
        new double[slopeNodes * STOPS],
        new double[pieces][nodes * ColdWaterPieces.COEFFICIENTS],
        new double[pieces][slopeNodes * ColdWaterPieces.COEFFICIENTS],
        new double[air * fans],
        new double[slopeAir * fans]);
  }
}
