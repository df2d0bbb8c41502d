package towerledger.thermal;

import towerledger.psychrometrics.MoistAir;
import towerledger.psychrometrics.WetBulb;
import towerledger.quantity.OutOfRangeException;
import towerledger.thermal.fill.AshraeProperties;
import towerledger.thermal.fill.CounterflowFill;
import towerledger.thermal.fill.FillLaw;
import towerledger.thermal.fill.PoppeIntegration;
import towerledger.thermal.fill.TabulatedProperties;

/**
 * The fill of an open tower, by the Poppe method.
 *
 * <p>Fans that cannot be throttled alternate. The basin evens that out, so that every state meets
 * the same hot water; the share of time (or of cells) at the higher air flow is what brings the
 * mixed cold water to its set-point.
 *
 * @param law transfer of the fill, in Poppe's Merkel number
 * @param dryAirKgS dry air of all cells at full speed, kg/s
 */
record OpenFill(FillLaw law, double dryAirKgS) implements HeatExchange {

  private static final AshraeProperties PROPERTIES = new AshraeProperties();
  private static final double TOLERANCE = 1e-9;

  static OpenFill fitted(TowerDesign design) {
    DesignPoint point = design.point();
    MoistAir air = point.inletAir();
    PoppeIntegration poppe = new PoppeIntegration(PROPERTIES, CounterflowFill.REFERENCE_STEPS);
    if (!poppe.run(
        point.hotWaterC(),
        point.coldWaterC(),
        point.waterToAir(),
        air.humidityRatio(),
        air.enthalpyJPerKg(),
        air.pressurePa())) {
      throw tooLittleAir(
          "design air flow", point.dryAirFlowKgS(), point.hotWaterC(), point.coldWaterC());
    }
    return new OpenFill(
        FillLaw.through(poppe.merkelNumber(), point.waterToAir(), design.fillExponent()),
        point.dryAirFlowKgS());
  }

  static OperatingPoint measured(
      double hotC, double coldC, double waterKgS, double dryAirKgS, MoistAir air) {
    PoppeIntegration poppe = new PoppeIntegration(PROPERTIES, 2 * CounterflowFill.REFERENCE_STEPS);
    if (!poppe.run(
        hotC,
        coldC,
        waterKgS / dryAirKgS,
        air.humidityRatio(),
        air.enthalpyJPerKg(),
        air.pressurePa())) {
      throw tooLittleAir("air flow", dryAirKgS, hotC, coldC);
    }
    return WetTower.point(ControlRegime.MEASURED, poppe, hotC, coldC, waterKgS, dryAirKgS, 1, air);
  }

  private static OutOfRangeException tooLittleAir(
      String quantity, double dryAirKgS, double hotC, double coldC) {
    return new OutOfRangeException(
        quantity,
        dryAirKgS,
        "kg/s of dry air",
        "is too small to cool this water from %s to %s, however large the fill"
            .formatted(
                OutOfRangeException.withUnit(hotC, "°C"),
                OutOfRangeException.withUnit(coldC, "°C")),
        "check air flow, water flow and temperatures");
  }

  /** A solver for air of this state; for one thread. */
  CounterflowFill solver(MoistAir air, int steps, double tolerance) {
    CounterflowFill solver = new CounterflowFill(law, PROPERTIES, steps, tolerance);
    solver.enter(air, liquidWetBulbC(air));
    return solver;
  }

  /** A quick solver that no air has entered yet; for one thread. */
  CounterflowFill quickSolver(int steps, double tolerance) {
    return new CounterflowFill(law, new TabulatedProperties(), steps, tolerance);
  }

  static double liquidWetBulbC(MoistAir air) {
    return WetBulb.overLiquid(
        air.dryBulbC(), air.humidityRatio(), air.pressurePa(), air.dryBulbC());
  }

  @Override
  public OperatingPoint fixedAir(
      double heatW,
      double waterKgS,
      double inService,
      MoistAir air,
      double airShare,
      ControlRegime regime) {
    CounterflowFill solver = solver(air, CounterflowFill.REFERENCE_STEPS, TOLERANCE);
    double rangeK = range(heatW, waterKgS);
    double airToWater = airShare * inService * dryAirKgS / waterKgS;
    double coldC = coldWater(solver, rangeK, airToWater, air);
    return settled(regime, solver, coldC, rangeK, waterKgS, airToWater, air);
  }

  @Override
  public OperatingPoint controlled(
      double heatW,
      double waterKgS,
      double inService,
      MoistAir air,
      double setPointC,
      FanControl fans) {
    CounterflowFill solver = solver(air, CounterflowFill.REFERENCE_STEPS, TOLERANCE);
    double rangeK = range(heatW, waterKgS);
    double fullAir = inService * dryAirKgS / waterKgS;
    double guess = fullAir * Math.min(Math.max(heatW / (1e5 * dryAirKgS), 0.1), 1);
    double airToWater = solver.airToWaterFor(setPointC + rangeK, setPointC, guess, fullAir);
    if (airToWater > fullAir) {
      double coldC = coldWater(solver, rangeK, fullAir, air);
      return settled(ControlRegime.FULL_AIR, solver, coldC, rangeK, waterKgS, fullAir, air);
    }
    double leastAir = WetTower.LEAST_AIR_SHARE * fullAir;
    if (airToWater < leastAir) {
      double coldC = coldWater(solver, rangeK, leastAir, air);
      if (coldC >= WetTower.COLDEST_BASIN_C) {
        return settled(ControlRegime.LEAST_AIR, solver, coldC, rangeK, waterKgS, leastAir, air);
      }
      double floorC = WetTower.COLDEST_BASIN_C;
      double little = solver.airToWaterFor(floorC + rangeK, floorC, airToWater, leastAir);
      return settled(
          ControlRegime.FREEZE_PROTECTION, solver, floorC, rangeK, waterKgS, little, air);
    }
    if (fans == FanControl.VARIABLE_SPEED) {
      return settled(
          ControlRegime.SET_POINT_HELD, solver, setPointC, rangeK, waterKgS, airToWater, air);
    }
    double lowAir = WetTower.LOW_SPEED_AIR_SHARE * fullAir;
    boolean stepBetween = fans == FanControl.TWO_SPEED;
    double upper = stepBetween && airToWater <= lowAir ? lowAir : fullAir;
    double lower = stepBetween && airToWater > lowAir ? lowAir : leastAir;
    return alternating(solver, setPointC, rangeK, waterKgS, lower, upper, fullAir, air);
  }

  private OperatingPoint alternating(
      CounterflowFill solver,
      double setPointC,
      double rangeK,
      double waterKgS,
      double lower,
      double upper,
      double fullAir,
      MoistAir air) {
    double hotC = setPointC + rangeK;
    OperatingPoint high = state(solver, hotC, waterKgS, upper, fullAir, air);
    OperatingPoint low = state(solver, hotC, waterKgS, lower, fullAir, air);
    double time = (low.coldWaterC() - setPointC) / (low.coldWaterC() - high.coldWaterC());
    double rest = 1 - time;
    double dryAir = time * high.dryAirKgS() + rest * low.dryAirKgS();
    double evaporation = time * high.evaporationKgS() + rest * low.evaporationKgS();
    double airHeatHigh = time * high.evaporationKgS() / high.latentShare();
    double airHeatLow = rest * low.evaporationKgS() / low.latentShare();
    return new OperatingPoint(
        ControlRegime.SET_POINT_HELD,
        time * high.heatW() + rest * low.heatW(),
        evaporation,
        hotC,
        setPointC,
        dryAir,
        dryAir / (fullAir * waterKgS),
        (time * high.dryAirKgS() * high.leavingAirC() + rest * low.dryAirKgS() * low.leavingAirC())
            / dryAir,
        air.humidityRatio() + evaporation / dryAir,
        high.leavingFog() || low.leavingFog(),
        evaporation / (airHeatHigh + airHeatLow));
  }

  private static OperatingPoint state(
      CounterflowFill solver,
      double hotC,
      double waterKgS,
      double airToWater,
      double fullAir,
      MoistAir air) {
    double coldC = solver.coldWaterFromHot(hotC, airToWater);
    PoppeIntegration poppe = solver.settle(hotC, coldC, airToWater);
    return WetTower.point(
        ControlRegime.SET_POINT_HELD,
        poppe,
        hotC,
        coldC,
        waterKgS,
        airToWater * waterKgS,
        airToWater / fullAir,
        air);
  }

  private OperatingPoint settled(
      ControlRegime regime,
      CounterflowFill solver,
      double coldC,
      double rangeK,
      double waterKgS,
      double airToWater,
      MoistAir air) {
    PoppeIntegration poppe = solver.settle(coldC + rangeK, coldC, airToWater);
    double flow = airToWater * waterKgS;
    return WetTower.point(
        regime, poppe, coldC + rangeK, coldC, waterKgS, flow, flow / dryAirKgS, air);
  }

  private static double coldWater(
      CounterflowFill solver, double rangeK, double airToWater, MoistAir air) {
    double wetBulbC = liquidWetBulbC(air);
    double coldC = solver.coldWaterFor(rangeK, airToWater, wetBulbC + 0.8 * rangeK + 1);
    if (coldC > WetTower.HOTTEST_COLD_WATER_C) {
      throw new OutOfRangeException(
          "heat rejected",
          rangeK,
          "K of range at this water flow",
          "would heat the cold water above "
              + OutOfRangeException.withUnit(WetTower.HOTTEST_COLD_WATER_C, "°C"),
          "check heat and water flow against the size of the tower");
    }
    return coldC;
  }

  private static double range(double heatW, double waterKgS) {
    return heatW / (waterKgS * AshraeProperties.WATER_HEAT_CAPACITY);
  }
}
