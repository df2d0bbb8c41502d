package towerledger.thermal;

/**
 * Numbers of a response table; the arrays are shared and must not be changed. Slopes are changes
 * with relative pressure and stand at fewer nodes.
 *
 * @param rangeK design range, K
 * @param fanStates air flows between which the fans alternate, 0 for variable speed
 * @param blocks coefficients at every node, at design pressure
 * @param blockSlopes slopes of the coefficients
 * @param limitC limit of cooling at each node of wet bulb and dryness, °C
 * @param limitSlopes its slopes, K
 * @param lowest coldest water of the table above the limit, at each node of wet bulb and load, K
 * @param alternating coefficients of alternating fans at each node of wet bulb and dryness
 * @param alternatingSlopes slopes of these
 */
record ResponseNodes(
    double rangeK,
    int fanStates,
    double[] blocks,
    double[] blockSlopes,
    double[] limitC,
    double[] limitSlopes,
    double[] lowest,
    double[] alternating,
    double[] alternatingSlopes) {

  static ResponseNodes empty(double rangeK, int fanStates) {
    int air = ResponseGrid.airNodes();
    int slope = ResponseGrid.slopeNodes();
    int fans = fanStates * AlternatingFans.COEFFICIENTS;
    return new ResponseNodes(
        rangeK,
        fanStates,
        new double[ResponseGrid.offset(air, 0)],
        new double[ResponseGrid.slopeOffset(slope, 0)],
        new double[air],
        new double[slope],
        new double[ResponseGrid.WET_BULB_C.length * ResponseGrid.LOAD.length],
        new double[air * fans],
        new double[slope * fans]);
  }
}
