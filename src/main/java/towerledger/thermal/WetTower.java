package towerledger.thermal;

import towerledger.psychrometrics.MoistAir;
import towerledger.quantity.OutOfRangeException;
import towerledger.thermal.fill.AshraeProperties;
import towerledger.thermal.fill.PoppeIntegration;

/**
 * A tower fitted to its design point and solved for any other: the reference calculation, tens of
 * microseconds an hour. For long series there is the response table.
 *
 * <p>Open towers follow the Poppe method; coil towers (closed circuit, evaporative condenser,
 * hybrid) follow {@link CoilCooler}. Heat is water flow × heat capacity × (hot − cold), the makeup
 * entering at cold-water temperature. Objects may be shared between threads.
 */
public final class WetTower {

  /** Least air with the fans throttled or off, as a share of full air (common practice). */
  public static final double LEAST_AIR_SHARE = 0.1;

  /** Air at low speed of a two-speed fan, as a share of full air. */
  public static final double LOW_SPEED_AIR_SHARE = 0.5;

  /** Coldest basin allowed, °C: below it the control gives less than the least air. */
  public static final double COLDEST_BASIN_C = 4.5;

  /** Hottest cold water the model follows, °C. */
  public static final double HOTTEST_COLD_WATER_C = 75;

  /**
   * Least steady load, as a share of the design heat. An hour with less is computed as part of an
   * hour at this load, since chillers and pumps cycle there (common practice, no source).
   */
  public static final double TURNDOWN = 0.05;

  private final TowerDesign design;
  private final HeatExchange exchange;

  private WetTower(TowerDesign design, HeatExchange exchange) {
    this.design = design;
    this.exchange = exchange;
  }

  /**
   * Fits a tower to its design point.
   *
   * @throws OutOfRangeException when no fill or coil could meet the design point with its air flow
   */
  public static WetTower of(TowerDesign design) {
    return new WetTower(
        design,
        design.kind() == TowerKind.OPEN ? OpenFill.fitted(design) : CoilCooler.fitted(design));
  }

  public TowerDesign design() {
    return design;
  }

  HeatExchange exchange() {
    return exchange;
  }

  /** Evaporation alone, for long series; parameters as for {@link #operate}. */
  double evaporationKgS(double heatW, MoistAir air, double setPointC) {
    return operate(heatW, air, setPointC).evaporationKgS();
  }

  /**
   * The tower in an hour of its working life: design water flow, fans as built, cells as staged.
   *
   * @param heatW heat rejected, mean of the hour, W, not negative; zero gives {@link
   *     ControlRegime#OFF}
   * @param air air entering
   * @param setPointC cold-water set-point, °C; the water floats above it when the air cannot hold
   *     it
   */
  public OperatingPoint operate(double heatW, MoistAir air, double setPointC) {
    requireHeat(heatW);
    requireSetPoint(setPointC);
    if (heatW == 0) {
      return off(air);
    }
    DesignPoint point = design.point();
    double share = heatW / point.heatW();
    return share < TURNDOWN
        ? part(steady(TURNDOWN, air, setPointC), share / TURNDOWN)
        : steady(share, air, setPointC);
  }

  private OperatingPoint steady(double share, MoistAir air, double setPointC) {
    double inService = cellsInService(share);
    DesignPoint point = design.point();
    return exchange.controlled(
        share * point.heatW(),
        point.waterFlowKgS() * inService,
        inService,
        air,
        setPointC,
        design.fanControl());
  }

  /** Share of the cells that take water at a share of the design heat. */
  double cellsInService(double loadShare) {
    if (design.staging() == CellStaging.EVERY_CELL) {
      return 1;
    }
    double cells = Math.ceil(loadShare * design.cells() - 1e-9);
    return Math.min(Math.max(cells, 1), design.cells()) / design.cells();
  }

  /**
   * The tower at a water flow of its own, the air moved between {@value #LEAST_AIR_SHARE} and all
   * to hold the set-point, whatever fans are built in.
   *
   * @param heatW heat rejected, W, above zero
   * @param waterKgS water over the fill, kg/s, above zero
   * @param air air entering
   * @param setPointC cold-water set-point, °C
   */
  public OperatingPoint controlled(double heatW, double waterKgS, MoistAir air, double setPointC) {
    requireState(heatW, waterKgS);
    requireSetPoint(setPointC);
    return exchange.controlled(heatW, waterKgS, 1, air, setPointC, FanControl.VARIABLE_SPEED);
  }

  /**
   * The tower with all its air.
   *
   * @param heatW heat rejected, W, above zero
   * @param waterKgS water over the fill, kg/s, above zero
   */
  public OperatingPoint fullAir(double heatW, double waterKgS, MoistAir air) {
    requireState(heatW, waterKgS);
    return exchange.fixedAir(heatW, waterKgS, 1, air, 1, ControlRegime.FULL_AIR);
  }

  /**
   * What evaporates in a measured state of an open tower, whatever fill it has: the Poppe equations
   * between the measured water temperatures.
   *
   * @param hotWaterC water entering, °C
   * @param coldWaterC water leaving, °C
   * @param waterKgS water entering, kg/s
   * @param dryAirKgS dry air, kg/s
   * @param air air entering
   * @throws OutOfRangeException when no fill could do this with so little air
   */
  public static OperatingPoint measured(
      double hotWaterC, double coldWaterC, double waterKgS, double dryAirKgS, MoistAir air) {
    OutOfRangeException.requirePositive(
        "water flow", waterKgS, "kg/s", "give the flow over the tower");
    OutOfRangeException.requirePositive(
        "air flow", dryAirKgS, "kg/s", "give the air through the tower");
    OutOfRangeException.requireWithin(
        "hot water", hotWaterC, 0, 95, "°C", "check the value and its unit");
    if (!(hotWaterC > coldWaterC)) {
      throw new OutOfRangeException(
          "range",
          hotWaterC - coldWaterC,
          "K",
          "must be above zero: hot water must be above cold water",
          "check whether hot and cold water were exchanged");
    }
    requireAboveWetBulb("cold water", coldWaterC, air);
    return OpenFill.measured(hotWaterC, coldWaterC, waterKgS, dryAirKgS, air);
  }

  /**
   * Refuses water colder than the wet bulb.
   *
   * @throws OutOfRangeException naming both
   */
  public static void requireAboveWetBulb(String quantity, double waterC, MoistAir air) {
    double wetBulbC = air.wetBulbC();
    if (!(waterC > wetBulbC)) {
      throw new OutOfRangeException(
          quantity,
          waterC,
          "°C",
          "must be above the wet bulb of " + OutOfRangeException.withUnit(wetBulbC, "°C"),
          "no tower cools below the wet bulb; raise it or check the weather");
    }
  }

  /** Builds an operating point from an integration that ran through. */
  static OperatingPoint point(
      ControlRegime regime,
      PoppeIntegration poppe,
      double hotC,
      double coldC,
      double waterKgS,
      double dryAirKgS,
      double share,
      MoistAir air) {
    double evaporation = dryAirKgS * (poppe.humidity() - air.humidityRatio());
    double heat = waterKgS * AshraeProperties.WATER_HEAT_CAPACITY * (hotC - coldC);
    double airHeat = dryAirKgS * (poppe.enthalpy() - air.enthalpyJPerKg());
    return new OperatingPoint(
        regime,
        heat,
        evaporation,
        hotC,
        coldC,
        dryAirKgS,
        share,
        poppe.airC(),
        poppe.humidity(),
        poppe.supersaturated(),
        evaporation * latentHeat((hotC + coldC) / 2) / airHeat);
  }

  /** Latent heat of evaporation at a water temperature, J/kg: hg − hf of ASHRAE's constants. */
  static double latentHeat(double waterC) {
    return 2_501_000 + (1860 - AshraeProperties.WATER_HEAT_CAPACITY) * waterC;
  }

  private static OperatingPoint off(MoistAir air) {
    return new OperatingPoint(
        ControlRegime.OFF,
        0,
        0,
        Double.NaN,
        Double.NaN,
        0,
        0,
        air.dryBulbC(),
        air.humidityRatio(),
        false,
        0);
  }

  private static OperatingPoint part(OperatingPoint whole, double share) {
    return new OperatingPoint(
        whole.regime(),
        whole.heatW() * share,
        whole.evaporationKgS() * share,
        whole.hotWaterC(),
        whole.coldWaterC(),
        whole.dryAirKgS() * share,
        whole.airFlowShare() * share,
        whole.leavingAirC(),
        whole.leavingHumidityRatio(),
        whole.leavingFog(),
        whole.latentShare());
  }

  private static void requireState(double heatW, double waterKgS) {
    OutOfRangeException.requirePositive(
        "heat rejected", heatW, "W", "without heat a tower evaporates nothing");
    OutOfRangeException.requirePositive(
        "water flow", waterKgS, "kg/s", "give the flow over the tower");
  }

  private static void requireHeat(double heatW) {
    if (!(heatW >= 0) || Double.isInfinite(heatW)) {
      throw new OutOfRangeException(
          "heat rejected", heatW, "W", "must not be negative", "check the heat load");
    }
  }

  private static void requireSetPoint(double setPointC) {
    OutOfRangeException.requireWithin(
        "cold-water set-point",
        setPointC,
        COLDEST_BASIN_C,
        60,
        "°C",
        "the basin would freeze below and no tower runs above; check the value and its unit");
  }
}
