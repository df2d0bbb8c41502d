package towerledger.balance;

import towerledger.balance.facts.WeatherHours;
import towerledger.thermal.ResponseTable;

/**
 * The air of a station from an hour on, in which the towers of a system stand.
 *
 * @param tables response tables, and what they say at the hours of stations
 * @param weather weather of the station
 * @param offset hour of the weather at which the system's hours begin; may lie outside
 */
record TowerAir(TowerTables tables, WeatherHours weather, int offset) {

  /** Pressure where none is on record, Pa. */
  static final double STANDARD_PRESSURE_PA = 101_325;

  /**
   * Evaporation of the system's hours.
   *
   * @param table the tower
   * @param heatW heat of each hour, W; NaN where the weather is not known
   * @param setPointC cold-water set-point, °C
   * @param intoKgS receives the evaporation, kg/s; NaN where the weather is not known
   */
  void evaporation(ResponseTable table, double[] heatW, double[] setPointC, double[] intoKgS) {
    tables
        .find(table, weather, offset)
        .ifPresentOrElse(
            series -> series.evaporation(offset, heatW, setPointC, intoKgS),
            () -> {
              double[] dryBulbC = new double[heatW.length];
              double[] wetBulbC = new double[heatW.length];
              double[] pressurePa = new double[heatW.length];
              air(weather, offset, dryBulbC, wetBulbC, pressurePa);
              table.evaporation(heatW, dryBulbC, wetBulbC, pressurePa, setPointC, intoKgS);
            });
  }

  /** Writes the air of a stretch of hours, °C and Pa; NaN where it is not known. */
  static void air(
      WeatherHours weather, int first, double[] dryBulbC, double[] wetBulbC, double[] pressurePa) {
    for (int i = 0; i < dryBulbC.length; i++) {
      int w = first + i;
      boolean known = w >= 0 && w < weather.hours();
      dryBulbC[i] = known ? weather.dryBulbC(w) : Double.NaN;
      wetBulbC[i] = known ? weather.wetBulbC(w) : Double.NaN;
      double pa = known ? weather.pressurePa(w) : Double.NaN;
      pressurePa[i] = Double.isNaN(pa) ? STANDARD_PRESSURE_PA : pa;
    }
  }
}
