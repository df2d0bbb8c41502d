package towerledger.thermal;

import org.jspecify.annotations.Nullable;
import towerledger.psychrometrics.MoistAir;
import towerledger.quantity.OutOfRangeException;
import towerledger.thermal.fill.AshraeProperties;

/**
 * Evaporation of one tower by the hour, fast: the Poppe method tabulated once and interpolated.
 *
 * <p>An open tower is tabulated over wet bulb, dryness, pressure, load and cold-water temperature:
 * evaporation per heat, and the cold water with all the air and with the least. The set-point is
 * looked up, so that a change of set-point needs no new table; where the fans cannot hold it, the
 * cold water is what all (or the least) air makes of it. Hours outside the table (see {@link
 * #covers}) are computed directly, so that no answer is extrapolated. Coil towers have a closed
 * solution and need no table.
 *
 * <p>Against the direct calculation a month's evaporation differs by at most 0.3 %. Immutable;
 * shared between threads; about 100 kB.
 */
public final class ResponseTable {

  private static final double PER_WATER_AND_KELVIN = 1 / AshraeProperties.WATER_HEAT_CAPACITY;
  private static final double HIGHEST_LOAD = ResponseGrid.LOAD[ResponseGrid.LOAD.length - 1];
  private static final double LOWEST_WET_BULB_C = ResponseGrid.WET_BULB_C.node(0);
  private static final double HIGHEST_WET_BULB_C = ResponseGrid.WET_BULB_C.last();

  /** Pressure over design pressure within which the table answers. */
  private static final double PRESSURE_SPAN = 0.08;

  private final WetTower tower;
  private final String fingerprint;
  private final @Nullable ResponseNodes nodes;

  /** Reciprocals of the design point's heat, 1/W, and pressure, 1/Pa. */
  private final double perDesignHeat;

  private final double perDesignPressure;

  private ResponseTable(WetTower tower, @Nullable ResponseNodes nodes) {
    this.tower = tower;
    this.fingerprint = tower.design().fingerprint();
    this.nodes = nodes;
    DesignPoint point = tower.design().point();
    this.perDesignHeat = 1 / point.heatW();
    this.perDesignPressure = 1 / point.inletAir().pressurePa();
  }

  /**
   * Computes the table of a tower.
   *
   * @throws OutOfRangeException when the design point cannot be met
   */
  public static ResponseTable of(TowerDesign design) {
    WetTower tower = WetTower.of(design);
    return new ResponseTable(
        tower,
        tower.exchange() instanceof OpenFill fill
            ? new ResponseBuilder(fill, design).build()
            : null);
  }

  public TowerDesign design() {
    return tower.design();
  }

  /** Text to keep the table under: equal for designs that behave alike. */
  public String fingerprint() {
    return fingerprint;
  }

  /**
   * Whether an hour is answered from the table.
   *
   * @param loadShare heat over design heat
   */
  public boolean covers(
      double loadShare, double dryBulbC, double wetBulbC, double pressurePa, double setPointC) {
    return nodes != null
        && coversLoad(loadShare, setPointC)
        && coversAir(dryBulbC, wetBulbC, pressurePa);
  }

  /** Whether a load and a set-point lie within every table. */
  static boolean coversLoad(double loadShare, double setPointC) {
    return loadShare <= HIGHEST_LOAD && setPointC <= ResponseGrid.HOTTEST_C;
  }

  /** Whether air lies within the table. */
  boolean coversAir(double dryBulbC, double wetBulbC, double pressurePa) {
    return wetBulbC >= LOWEST_WET_BULB_C
        && wetBulbC <= HIGHEST_WET_BULB_C
        && dryBulbC <= 60
        && Math.abs(pressureChange(pressurePa)) <= PRESSURE_SPAN;
  }

  @Nullable ResponseNodes nodes() {
    return nodes;
  }

  /** Heat over design heat. */
  double loadShare(double heatW) {
    return heatW * perDesignHeat;
  }

  /** Pressure over design pressure, less one. */
  double pressureChange(double pressurePa) {
    return pressurePa * perDesignPressure - 1;
  }

  /** Load over design load of the cells in service, kept within the table. */
  double loadOfCells(double share) {
    double steady = Math.max(share, WetTower.TURNDOWN);
    return Math.min(steady / tower.cellsInService(steady), HIGHEST_LOAD);
  }

  /** Evaporation from what a look-up gives: over water and range, 1/K. */
  static double kgS(double heatW, double perRange) {
    return heatW * PER_WATER_AND_KELVIN * perRange;
  }

  /**
   * Evaporation of each hour of a series.
   *
   * @param heatW heat rejected, mean of the hour, W; zero or less evaporates nothing
   * @param dryBulbC °C
   * @param wetBulbC °C, over ice below freezing; at or above the dry bulb counts as saturated
   * @param pressurePa station pressure, Pa
   * @param setPointC cold-water set-point, °C
   * @param intoKgS receives the mean evaporation of each hour, kg/s; NaN where an input is NaN
   */
  public void evaporation(
      double[] heatW,
      double[] dryBulbC,
      double[] wetBulbC,
      double[] pressurePa,
      double[] setPointC,
      double[] intoKgS) {
    int hours = heatW.length;
    if (dryBulbC.length < hours
        || wetBulbC.length < hours
        || pressurePa.length < hours
        || setPointC.length < hours
        || intoKgS.length < hours) {
      throw new IllegalArgumentException(
          "%d hours of heat need as many of weather, set-point and result".formatted(hours));
    }
    ResponseLookup lookup = nodes == null ? null : new ResponseLookup(nodes);
    for (int i = 0; i < hours; i++) {
      intoKgS[i] =
          evaporation(lookup, heatW[i], dryBulbC[i], wetBulbC[i], pressurePa[i], setPointC[i]);
    }
  }

  /** Evaporation of one hour, kg/s; parameters as for the series. */
  public double evaporationKgS(
      double heatW, double dryBulbC, double wetBulbC, double pressurePa, double setPointC) {
    return evaporation(
        nodes == null ? null : new ResponseLookup(nodes),
        heatW,
        dryBulbC,
        wetBulbC,
        pressurePa,
        setPointC);
  }

  private double evaporation(
      @Nullable ResponseLookup lookup,
      double heatW,
      double dryBulbC,
      double wetBulbGivenC,
      double pressurePa,
      double setPointC) {
    double sum = heatW + dryBulbC + wetBulbGivenC + pressurePa + setPointC;
    if (Double.isNaN(sum)) {
      return Double.NaN;
    }
    if (heatW <= 0) {
      return 0;
    }
    double wetBulbC = Math.min(wetBulbGivenC, dryBulbC);
    double share = loadShare(heatW);
    if (lookup == null || !covers(share, dryBulbC, wetBulbC, pressurePa, setPointC)) {
      MoistAir air = MoistAir.fromWetBulb(dryBulbC, wetBulbC, pressurePa);
      return tower.evaporationKgS(heatW, air, setPointC);
    }
    double perRange =
        lookup.perRange(
            loadOfCells(share),
            dryBulbC,
            wetBulbC,
            pressureChange(pressurePa),
            pressurePa,
            setPointC);
    return kgS(heatW, perRange);
  }
}
