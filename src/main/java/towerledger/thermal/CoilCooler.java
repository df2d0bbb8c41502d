package towerledger.thermal;

import towerledger.psychrometrics.MoistAir;
import towerledger.quantity.OutOfRangeException;
import towerledger.thermal.fill.AshraeProperties;
import towerledger.thermal.fill.PoppeIntegration;

/**
 * A sprayed coil: closed-circuit cooler, evaporative condenser or hybrid.
 *
 * <p>The spray water goes round so fast that it has one temperature, the film temperature Tf. From
 * the fluid to the film the coil has a constant heat transfer coefficient times area; from the film
 * to the air Merkel's law holds (Lewis factor one):
 *
 * <pre>
 *   i_out = i_in + ε (i_s(Tf) − i_in),  w_out = w_in + ε (w_s(Tf) − w_in)
 *   Q = m_a ε S(Tf),  S = i_s − i_in − (w_s − w_in) cw Tf   (makeup enters at Tf)
 *   E = Q (w_s − w_in) / S
 * </pre>
 *
 * so that evaporation per heat depends on the film temperature alone, not on the air flow. What is
 * assumed, without a source: at the design point the film stands at 60 % of the approach above the
 * wet bulb and, where the air flow is not known, ε is 0.8; fans that alternate count as throttled;
 * a hybrid runs dry while its coil could reject the load to air of the outdoor dry bulb, being
 * sized to do so at full load and {@value #DRY_AT_FULL_LOAD_C} °C.
 *
 * @param kind closed circuit, condenser or hybrid
 * @param conductanceWPerK fluid to film, W/K
 * @param dryAirKgS dry air of all cells at full speed, kg/s
 * @param transferUnits film to air at full speed
 * @param exponent transfer units fall as air^(exponent − 1)
 * @param dryCapacityWPerK dry capacity per kelvin between hot fluid and outdoor air, W/K; 0 if none
 */
record CoilCooler(
    TowerKind kind,
    double conductanceWPerK,
    double dryAirKgS,
    double transferUnits,
    double exponent,
    double dryCapacityWPerK)
    implements HeatExchange {

  private static final double FILM_SHARE_OF_APPROACH = 0.6;
  private static final double USUAL_EFFECTIVENESS = 0.8;
  private static final double MOST_EFFECTIVENESS = 0.97;
  private static final double DRY_AT_FULL_LOAD_C = 5;
  private static final double CW = AshraeProperties.WATER_HEAT_CAPACITY;
  private static final AshraeProperties PROPERTIES = new AshraeProperties();

  static CoilCooler fitted(TowerDesign design) {
    DesignPoint point = design.point();
    MoistAir air = point.inletAir();
    double wetBulbC = air.wetBulbC();
    double filmC = wetBulbC + FILM_SHARE_OF_APPROACH * (point.coldWaterC() - wetBulbC);
    double pull = pull(filmC, air);
    double dryAir = point.heatW() / (USUAL_EFFECTIVENESS * pull);
    double effectiveness = USUAL_EFFECTIVENESS;
    if (point.airFlowKnown()) {
      dryAir = point.dryAirFlowKgS();
      effectiveness = point.heatW() / (dryAir * pull);
      if (!(effectiveness < MOST_EFFECTIVENESS)) {
        throw new OutOfRangeException(
            "design air flow",
            dryAir,
            "kg/s of dry air",
            "is too small for this heat and approach; a coil tower needs at least "
                + OutOfRangeException.withUnit(point.heatW() / (MOST_EFFECTIVENESS * pull), "kg/s"),
            "check it, or leave it out if it is not known");
      }
    }
    boolean condenser = design.kind() == TowerKind.EVAPORATIVE_CONDENSER;
    double conductance =
        condenser
            ? point.heatW() / (point.coldWaterC() - filmC)
            : point.waterFlowKgS()
                * CW
                * Math.log((point.hotWaterC() - filmC) / (point.coldWaterC() - filmC));
    double dryCapacity =
        design.kind() == TowerKind.HYBRID
            ? point.heatW() / (point.hotWaterC() - DRY_AT_FULL_LOAD_C)
            : 0;
    return new CoilCooler(
        design.kind(),
        conductance,
        dryAir,
        -Math.log1p(-effectiveness),
        design.fillExponent(),
        dryCapacity);
  }

  /** S(Tf): heat a kg of dry air takes up when it reaches the film's saturation, J/kg. */
  private static double pull(double filmC, MoistAir air) {
    double ws = PROPERTIES.saturatedHumidityRatio(filmC, air.pressurePa());
    return MoistAir.enthalpyJPerKg(filmC, ws)
        - air.enthalpyJPerKg()
        - (ws - air.humidityRatio()) * CW * filmC;
  }

  /** Cold fluid less film, K. */
  private double coilDrop(double heatW, double waterKgS) {
    if (kind == TowerKind.EVAPORATIVE_CONDENSER) {
      return heatW / conductanceWPerK;
    }
    double rangeK = heatW / (waterKgS * CW);
    return rangeK / Math.expm1(conductanceWPerK / (waterKgS * CW));
  }

  private double hotC(double coldC, double heatW, double waterKgS) {
    return kind == TowerKind.EVAPORATIVE_CONDENSER ? coldC : coldC + heatW / (waterKgS * CW);
  }

  private double effectiveness(double airShare) {
    return -Math.expm1(-transferUnits * Math.pow(airShare, exponent - 1));
  }

  @Override
  public OperatingPoint fixedAir(
      double heatW,
      double waterKgS,
      double inService,
      MoistAir air,
      double airShare,
      ControlRegime regime) {
    double needed = heatW / (airShare * inService * dryAirKgS * effectiveness(airShare));
    double low = OpenFill.liquidWetBulbC(air);
    double high = WetTower.HOTTEST_COLD_WATER_C;
    if (pull(high, air) < needed) {
      throw new OutOfRangeException(
          "heat rejected",
          heatW,
          "W",
          "would heat the film above " + OutOfRangeException.withUnit(high, "°C"),
          "check the heat against the size of the tower");
    }
    for (int i = 0; i < 60 && high - low > 1e-9; i++) {
      double middle = (low + high) / 2;
      if (pull(middle, air) < needed) {
        low = middle;
      } else {
        high = middle;
      }
    }
    double filmC = (low + high) / 2;
    return state(regime, heatW, waterKgS, inService, filmC, airShare, air);
  }

  @Override
  public OperatingPoint controlled(
      double heatW,
      double waterKgS,
      double inService,
      MoistAir air,
      double setPointC,
      FanControl fans) {
    if (runsDry(heatW, waterKgS, setPointC, air)) {
      return new OperatingPoint(
          ControlRegime.DRY,
          heatW,
          0,
          hotC(setPointC, heatW, waterKgS),
          setPointC,
          inService * dryAirKgS,
          inService,
          air.dryBulbC() + heatW / (inService * dryAirKgS * 1006),
          air.humidityRatio(),
          false,
          0);
    }
    double filmC = setPointC - coilDrop(heatW, waterKgS);
    double airShare = airShareFor(heatW, inService, filmC, air);
    if (airShare > 1) {
      return fixedAir(heatW, waterKgS, inService, air, 1, ControlRegime.FULL_AIR);
    }
    if (airShare >= WetTower.LEAST_AIR_SHARE) {
      return state(ControlRegime.SET_POINT_HELD, heatW, waterKgS, inService, filmC, airShare, air);
    }
    OperatingPoint least =
        fixedAir(
            heatW, waterKgS, inService, air, WetTower.LEAST_AIR_SHARE, ControlRegime.LEAST_AIR);
    if (least.coldWaterC() >= WetTower.COLDEST_BASIN_C) {
      return least;
    }
    double floorFilmC = WetTower.COLDEST_BASIN_C - coilDrop(heatW, waterKgS);
    if (pull(floorFilmC, air) <= 0) {
      return least;
    }
    return state(
        ControlRegime.FREEZE_PROTECTION,
        heatW,
        waterKgS,
        inService,
        floorFilmC,
        airShareFor(heatW, inService, floorFilmC, air),
        air);
  }

  private boolean runsDry(double heatW, double waterKgS, double setPointC, MoistAir air) {
    double capacity = dryCapacityWPerK * (hotC(setPointC, heatW, waterKgS) - air.dryBulbC());
    return dryCapacityWPerK > 0 && heatW <= capacity;
  }

  /** Share of full air that brings the film to a temperature; infinite when none does. */
  private double airShareFor(double heatW, double inService, double filmC, MoistAir air) {
    double pull = pull(filmC, air);
    if (pull <= 0) {
      return Double.POSITIVE_INFINITY;
    }
    double needed = heatW / (pull * inService * dryAirKgS);
    if (needed > effectiveness(1)) {
      return Double.POSITIVE_INFINITY;
    }
    double low = 0;
    double high = 1;
    for (int i = 0; i < 50; i++) {
      double middle = (low + high) / 2;
      if (middle * effectiveness(middle) < needed) {
        low = middle;
      } else {
        high = middle;
      }
    }
    return (low + high) / 2;
  }

  private OperatingPoint state(
      ControlRegime regime,
      double heatW,
      double waterKgS,
      double inService,
      double filmC,
      double airShare,
      MoistAir air) {
    double effectiveness = effectiveness(airShare);
    double ws = PROPERTIES.saturatedHumidityRatio(filmC, air.pressurePa());
    double gain = effectiveness * (ws - air.humidityRatio());
    double dryAir = airShare * inService * dryAirKgS;
    double evaporation = dryAir * gain;
    double enthalpy =
        air.enthalpyJPerKg()
            + effectiveness * (MoistAir.enthalpyJPerKg(filmC, ws) - air.enthalpyJPerKg());
    PoppeIntegration leaving = new PoppeIntegration(PROPERTIES, 1);
    double leavingC =
        leaving.airTemperatureC(air.humidityRatio() + gain, enthalpy, air.pressurePa());
    double coldC = filmC + coilDrop(heatW, waterKgS);
    return new OperatingPoint(
        regime,
        heatW,
        evaporation,
        hotC(coldC, heatW, waterKgS),
        coldC,
        dryAir,
        airShare * inService,
        leavingC,
        air.humidityRatio() + gain,
        leaving.supersaturated(),
        evaporation * WetTower.latentHeat(filmC) / (dryAir * (enthalpy - air.enthalpyJPerKg())));
  }
}
