package towerledger.thermal;

import static org.assertj.core.api.Assertions.assertThat;
import static org.assertj.core.api.Assertions.assertThatThrownBy;
import static org.assertj.core.api.Assertions.within;

import org.junit.jupiter.api.Test;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.CsvSource;
import org.junit.jupiter.params.provider.EnumSource;
import towerledger.psychrometrics.MoistAir;
import towerledger.quantity.OutOfRangeException;

class WetTowerTest {

  private static final double SEA_LEVEL = 101_325;
  private static final MoistAir DESIGN_AIR = MoistAir.fromWetBulb(35, 25.56, SEA_LEVEL);

  /** 100 tower tons: 300 gpm from 95 to 85 °F at 78 °F wet bulb. */
  static final DesignPoint POINT = DesignPoint.withUsualAirFlow(18.87, 35, 29.44, DESIGN_AIR);

  private static final TowerDesign DESIGN = TowerDesign.open(POINT);

  @ParameterizedTest
  @EnumSource(TowerKind.class)
  void comesBackToItsDesignPoint(TowerKind kind) {
    WetTower tower = WetTower.of(DESIGN.withKind(kind));
    OperatingPoint point = tower.fullAir(POINT.heatW(), POINT.waterFlowKgS(), DESIGN_AIR);
    assertThat(point.coldWaterC()).isCloseTo(29.44, within(1e-4));
    assertThat(point.heatW()).isCloseTo(POINT.heatW(), within(1.0));
  }

  /** Water and heat are conserved: what the air gains is what the water lost. */
  @ParameterizedTest
  @CsvSource({
    "OPEN, 1.0, 35, 25.6, 24", "OPEN, 0.5, 20, 15, 24", "OPEN, 0.3, -5, -6, 24",
    "OPEN, 0.08, -15, -16, 24", "OPEN, 0.8, 42, 21, 26", "CLOSED_CIRCUIT, 0.7, 25, 18, 26",
    "EVAPORATIVE_CONDENSER, 0.4, 10, 8, 26", "HYBRID, 0.9, 30, 22, 29"
  })
  void conservesWaterAndHeat(
      TowerKind kind, double load, double dryBulbC, double wetBulbC, double setPointC) {
    MoistAir air = MoistAir.fromWetBulb(dryBulbC, wetBulbC, 99_000);
    WetTower tower = WetTower.of(DESIGN.withKind(kind));
    OperatingPoint point = tower.operate(load * POINT.heatW(), air, setPointC);
    double gain = point.leavingHumidityRatio() - air.humidityRatio();
    assertThat(point.dryAirKgS() * gain)
        .isCloseTo(point.evaporationKgS(), within(1e-9 + 1e-6 * point.evaporationKgS()));
    assertThat(point.heatW()).isCloseTo(load * POINT.heatW(), within(2.0));
    if (!point.leavingFog() && kind == TowerKind.OPEN) {
      double airHeat =
          point.dryAirKgS()
              * (MoistAir.enthalpyJPerKg(point.leavingAirC(), point.leavingHumidityRatio())
                  - air.enthalpyJPerKg());
      double makeupHeat = point.evaporationKgS() * 4186 * point.coldWaterC();
      assertThat(airHeat).isCloseTo(point.heatW() + makeupHeat, within(0.001 * point.heatW()));
    }
  }

  @Test
  void holdsTheSetPointWhileTheFanCanAndFloatsAboveWhenNot() {
    WetTower tower = WetTower.of(DESIGN);
    OperatingPoint held =
        tower.operate(0.6 * POINT.heatW(), MoistAir.fromWetBulb(22, 17, SEA_LEVEL), 26);
    assertThat(held.regime()).isEqualTo(ControlRegime.SET_POINT_HELD);
    assertThat(held.coldWaterC()).isCloseTo(26, within(1e-9));
    assertThat(held.airFlowShare()).isBetween(0.1, 1.0);

    OperatingPoint floating =
        tower.operate(POINT.heatW(), MoistAir.fromWetBulb(33, 26, SEA_LEVEL), 26);
    assertThat(floating.regime()).isEqualTo(ControlRegime.FULL_AIR);
    assertThat(floating.coldWaterC()).isGreaterThan(26);
    assertThat(floating.airFlowShare()).isEqualTo(1, within(1e-12));

    OperatingPoint least =
        tower.operate(0.2 * POINT.heatW(), MoistAir.fromWetBulb(2, 0, SEA_LEVEL), 26);
    assertThat(least.regime()).isEqualTo(ControlRegime.LEAST_AIR);
    assertThat(least.coldWaterC()).isBetween(WetTower.COLDEST_BASIN_C, 26.0);

    OperatingPoint freezing =
        tower.operate(0.06 * POINT.heatW(), MoistAir.fromWetBulb(-15, -16, SEA_LEVEL), 26);
    assertThat(freezing.regime()).isEqualTo(ControlRegime.FREEZE_PROTECTION);
    assertThat(freezing.coldWaterC()).isEqualTo(WetTower.COLDEST_BASIN_C);
  }

  /** Fans that alternate still hold the set-point and reject the whole heat. */
  @ParameterizedTest
  @EnumSource(FanControl.class)
  void everyFanControlRejectsTheHeatAtTheSetPoint(FanControl control) {
    MoistAir air = MoistAir.fromWetBulb(24, 18, SEA_LEVEL);
    OperatingPoint point =
        WetTower.of(DESIGN.withFanControl(control)).operate(0.5 * POINT.heatW(), air, 26);
    OperatingPoint throttled = WetTower.of(DESIGN).operate(0.5 * POINT.heatW(), air, 26);
    assertThat(point.coldWaterC()).isCloseTo(26, within(1e-6));
    assertThat(point.heatW()).isCloseTo(0.5 * POINT.heatW(), within(5.0));
    // the way of throttling moves evaporation by little: the heat balance rules it
    assertThat(point.evaporationKgS())
        .isCloseTo(throttled.evaporationKgS(), within(0.04 * throttled.evaporationKgS()));
  }

  /** MODEL: an unknown L/G of 0.9 … 1.5 moves evaporation by at most 4 %. */
  @Test
  void anUnknownAirFlowHardlyMovesEvaporation() {
    double[] wetBulbs = {-5, 5, 12, 18, 23};
    double[] depressions = {1, 4, 8, 11, 14};
    for (int i = 0; i < wetBulbs.length; i++) {
      double depression = wetBulbs[i] < 0 ? 1 : depressions[i];
      MoistAir air = MoistAir.fromWetBulb(wetBulbs[i] + depression, wetBulbs[i], SEA_LEVEL);
      double usual = evaporation(1.2, air);
      assertThat(evaporation(0.9, air)).as("%s", air).isCloseTo(usual, within(0.04 * usual));
      assertThat(evaporation(1.5, air)).as("%s", air).isCloseTo(usual, within(0.04 * usual));
    }
  }

  private static double evaporation(double waterToAir, MoistAir air) {
    DesignPoint point = DesignPoint.withAirFlow(18.87, 35, 29.44, DESIGN_AIR, 18.87 / waterToAir);
    return WetTower.of(TowerDesign.open(point))
        .operate(0.7 * point.heatW(), air, 26)
        .evaporationKgS();
  }

  /**
   * Common practice, no source: about 1 % of the circulation evaporates per 10–13 °F of range in
   * usual summer air.
   */
  @Test
  void aboutOnePercentEvaporatesPerTenToThirteenFahrenheit() {
    OperatingPoint point =
        WetTower.of(DESIGN).fullAir(POINT.heatW(), POINT.waterFlowKgS(), DESIGN_AIR);
    double sharePerKelvin = point.evaporationKgS() / POINT.waterFlowKgS() / POINT.rangeK();
    double fahrenheitPerPercent = 0.01 / sharePerKelvin * 1.8;
    assertThat(fahrenheitPerPercent).isBetween(9.5, 13.0);
  }

  /** Hot-dry air is cooled by the water: latent heat exceeds what the air gains. */
  @Test
  void latentShareMayExceedOne() {
    OperatingPoint desert =
        WetTower.of(DESIGN).operate(0.5 * POINT.heatW(), MoistAir.fromWetBulb(42, 20, 93_000), 26);
    assertThat(desert.latentShare()).isGreaterThan(1);
    OperatingPoint winter =
        WetTower.of(DESIGN).operate(0.5 * POINT.heatW(), MoistAir.fromWetBulb(0, -1, 100_000), 20);
    assertThat(winter.latentShare()).isBetween(0.5, 0.75);
  }

  /** A hybrid in dry mode evaporates nothing; in summer it is wet. */
  @Test
  void hybridRunsDryInCoolWeather() {
    WetTower hybrid = WetTower.of(DESIGN.withKind(TowerKind.HYBRID));
    OperatingPoint cool =
        hybrid.operate(0.4 * POINT.heatW(), MoistAir.fromWetBulb(5, 3, SEA_LEVEL), 28);
    assertThat(cool.regime()).isEqualTo(ControlRegime.DRY);
    assertThat(cool.evaporationKgS()).isZero();
    OperatingPoint warm =
        hybrid.operate(0.8 * POINT.heatW(), MoistAir.fromWetBulb(30, 22, SEA_LEVEL), 28);
    assertThat(warm.regime()).isNotEqualTo(ControlRegime.DRY);
    assertThat(warm.evaporationKgS()).isPositive();
  }

  @Test
  void stagedCellsKeepTheirDesignFlow() {
    TowerDesign staged = DESIGN.withCells(4, CellStaging.CELLS_BY_LOAD);
    MoistAir air = MoistAir.fromWetBulb(22, 17, SEA_LEVEL);
    OperatingPoint quarter = WetTower.of(staged).operate(0.25 * POINT.heatW(), air, 26);
    OperatingPoint one = WetTower.of(DESIGN).operate(POINT.heatW(), air, 26);
    assertThat(quarter.hotWaterC()).isCloseTo(one.hotWaterC(), within(1e-6));
    assertThat(quarter.evaporationKgS()).isCloseTo(one.evaporationKgS() / 4, within(1e-6));
  }

  /** Least load times heat, over heat, may come out a last digit below the least load. */
  @Test
  void lessThanTheLeastLoadIsPartOfAnHourAtItForTowersOfEverySize() {
    for (int kgS = 1; kgS <= 60; kgS++) {
      DesignPoint point = DesignPoint.withUsualAirFlow(1.37 * kgS, 35, 29.44, DESIGN_AIR);
      WetTower tower = WetTower.of(TowerDesign.open(point));
      double half = tower.operate(0.025 * point.heatW(), DESIGN_AIR, 24).evaporationKgS();
      double least = tower.operate(0.0500001 * point.heatW(), DESIGN_AIR, 24).evaporationKgS();
      assertThat(half).isCloseTo(least / 2, within(1e-4 * least));
    }
  }

  @Test
  void noHeatNoEvaporation() {
    OperatingPoint off = WetTower.of(DESIGN).operate(0, DESIGN_AIR, 26);
    assertThat(off.regime()).isEqualTo(ControlRegime.OFF);
    assertThat(off.evaporationKgS()).isZero();
  }

  @Test
  void refusesWhatNoTowerCanDo() {
    WetTower tower = WetTower.of(DESIGN);
    assertThatThrownBy(() -> DesignPoint.withUsualAirFlow(18.9, 29, 35, DESIGN_AIR))
        .isInstanceOf(OutOfRangeException.class)
        .hasMessageContaining("design range of -6 K (-10.8 °F) must be at least 0.5 K (0.9 °F)")
        .hasMessageContaining("exchanged");
    assertThatThrownBy(() -> DesignPoint.withUsualAirFlow(18.9, 35, 25, DESIGN_AIR))
        .isInstanceOf(OutOfRangeException.class)
        .hasMessageContaining(
            "design cold water of 25 °C (77 °F) must be at least 0.5 K (0.9 °F) above")
        .hasMessageContaining("25.56 °C (78.008 °F)");
    assertThatThrownBy(() -> DesignPoint.withUsualAirFlow(0, 35, 29, DESIGN_AIR))
        .isInstanceOf(OutOfRangeException.class)
        .hasMessageContaining("design water flow of 0 kg/s must be above zero");
    assertThatThrownBy(
            () ->
                WetTower.of(TowerDesign.open(DesignPoint.withAirFlow(18.9, 45, 27, DESIGN_AIR, 5))))
        .isInstanceOf(OutOfRangeException.class)
        .hasMessageContaining("design air flow of 5 kg/s")
        .hasMessageContaining("check air flow, water flow and temperatures");
    assertThatThrownBy(() -> tower.controlled(1e5, -1, DESIGN_AIR, 26))
        .isInstanceOf(OutOfRangeException.class)
        .hasMessageContaining("water flow of -1 kg/s must be above zero");
    assertThatThrownBy(() -> tower.controlled(0, 18, DESIGN_AIR, 26))
        .isInstanceOf(OutOfRangeException.class)
        .hasMessageContaining("heat rejected of 0 W must be above zero");
    assertThatThrownBy(() -> tower.operate(1e5, DESIGN_AIR, 1))
        .isInstanceOf(OutOfRangeException.class)
        .hasMessageContaining(
            "set-point of 1 °C (33.8 °F) must lie between 4.5 °C (40.1 °F) and 60 °C (140 °F)");
    assertThatThrownBy(() -> WetTower.measured(30, 30, 18, 15, DESIGN_AIR))
        .isInstanceOf(OutOfRangeException.class)
        .hasMessageContaining("range of 0 K (0 °F) must be above zero");
    assertThatThrownBy(() -> WetTower.measured(35, 25, 18, 15, DESIGN_AIR))
        .isInstanceOf(OutOfRangeException.class)
        .hasMessageContaining(
            "cold water of 25 °C (77 °F) must be above the wet bulb of 25.56 °C (78.008 °F)");
    assertThatThrownBy(() -> WetTower.measured(45, 27, 18, 3, DESIGN_AIR))
        .isInstanceOf(OutOfRangeException.class)
        .hasMessageContaining("air flow of 3 kg/s of dry air is too small");
  }

  @Test
  void equalDesignsShareAFingerprintAndOthersDoNot() {
    assertThat(TowerDesign.open(POINT).fingerprint()).isEqualTo(DESIGN.fingerprint());
    assertThat(DESIGN.withFillExponent(0.7).fingerprint()).isNotEqualTo(DESIGN.fingerprint());
    assertThat(DESIGN.withKind(TowerKind.HYBRID).fingerprint()).isNotEqualTo(DESIGN.fingerprint());
  }
}
