package towerledger.thermal;

/**
 * Where the cold water of a tower comes to stand. It is held at its set-point, or floats between
 * two stops: what all the air can do, and what the least still does. All as the coordinate of the
 * response table, 0 at the coldest water tabulated and 1 at the hottest, a logarithm of the way
 * above the limit of cooling.
 */
final class ColdWater {

  /** Set-points this near to the limit of cooling take all the air, as a share of the lowest. */
  private static final double NEAR_LIMIT = 0.3;

  private ColdWater() {}

  /**
   * Coordinate of the cold water.
   *
   * @param limitC limit of cooling, °C
   * @param lowestK coldest water of the table above the limit, K
   * @param setPointC cold-water set-point, °C
   * @param fullAirY coordinate with all the air
   * @param leastAirY coordinate with the least air
   * @return a value between the two stops, or one of them; above the least air's only where the
   *     basin would freeze
   */
  static double coordinate(
      double limitC, double lowestK, double setPointC, double fullAirY, double leastAirY) {
    double pull = setPointC - limitC;
    if (pull <= NEAR_LIMIT * lowestK) {
      return fullAirY;
    }
    double logRatio = Math.log((ResponseGrid.HOTTEST_C - limitC) / lowestK);
    double y = Math.log(pull / lowestK) / logRatio;
    if (y < fullAirY) {
      return fullAirY;
    }
    if (y <= leastAirY) {
      return y;
    }
    if (limitC >= WetTower.COLDEST_BASIN_C) {
      return leastAirY;
    }
    double floor = Math.log((WetTower.COLDEST_BASIN_C - limitC) / lowestK) / logRatio;
    return Math.max(leastAirY, floor);
  }
}
