package towerledger.thermal;

import static org.assertj.core.api.Assertions.assertThat;
import static org.assertj.core.api.Assertions.assertThatThrownBy;
import static org.assertj.core.api.Assertions.within;

import java.util.Random;
import java.util.stream.Stream;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.Arguments;
import org.junit.jupiter.params.provider.MethodSource;
import towerledger.psychrometrics.MoistAir;
import towerledger.quantity.OutOfRangeException;

/** The response table against the calculation it stands for. */
class ResponseTableTest {

  private static final double MONTH_BUDGET = 0.003;
  private static final int HOURS = 8760;

  /** Every seventh hour is computed directly; a month still holds 104, of all times of day. */
  private static final int STEP = 7;

  /**
   * A made-up climate: yearly and daily waves with noise.
   *
   * @param meanC yearly mean, °C
   * @param yearlyK half the yearly swing, K
   * @param dailyK half the daily swing, K
   * @param humidity mean relative humidity
   * @param pressurePa mean pressure
   */
  record Climate(
      String name,
      double meanC,
      double yearlyK,
      double dailyK,
      double humidity,
      double pressurePa) {
    @Override
    public String toString() {
      return name;
    }
  }

  private static final Climate COLD = new Climate("cold", 5, 18, 5, 0.72, 99_500);
  private static final Climate HUMID = new Climate("hot-humid", 24, 7, 5, 0.78, 101_300);
  private static final Climate DRY = new Climate("hot-dry", 23, 11, 8, 0.26, 93_500);
  private static final Climate HIGH = new Climate("highland", 9, 11, 9, 0.5, 80_000);

  private static DesignPoint point(
      double pressurePa, double hotC, double coldC, double wetBulbC, double waterToAir) {
    MoistAir air = MoistAir.fromWetBulb(wetBulbC + 9.4, wetBulbC, pressurePa);
    return DesignPoint.withAirFlow(50, hotC, coldC, air, 50 / waterToAir);
  }

  static Stream<Arguments> operatingRanges() {
    return Stream.of(COLD, HUMID, DRY, HIGH)
        .flatMap(
            climate -> {
              double p = climate.pressurePa();
              TowerDesign usual = TowerDesign.open(point(p, 35, 29.44, 25.56, 1.2));
              TowerDesign longRange = TowerDesign.open(point(p, 42, 30, 24, 0.9));
              TowerDesign close = TowerDesign.open(point(p, 32, 27, 24.5, 0.8));
              TowerDesign loaded = TowerDesign.open(point(p, 36, 30, 24, 1.6));
              return Stream.of(
                  Arguments.of(climate, "usual", usual, 24.0, 0.9),
                  Arguments.of(climate, "usual, warm set-point", usual, 29.4, 1.2),
                  Arguments.of(climate, "long range, low load", longRange, 22.0, 0.3),
                  Arguments.of(climate, "close approach, cold set-point", close, 12.0, 1.0),
                  Arguments.of(climate, "little air", loaded, 26.0, 0.7),
                  Arguments.of(
                      climate,
                      "single speed",
                      usual.withFanControl(FanControl.SINGLE_SPEED),
                      24.0,
                      0.9),
                  Arguments.of(
                      climate, "two speed", usual.withFanControl(FanControl.TWO_SPEED), 26.0, 0.7),
                  Arguments.of(
                      climate,
                      "staged cells",
                      usual.withCells(4, CellStaging.CELLS_BY_LOAD),
                      24.0,
                      0.8));
            });
  }

  /** MODEL: at most 0.3 % of a month's evaporation, in every month of every climate and design. */
  @ParameterizedTest(name = "{0}, {1}")
  @MethodSource("operatingRanges")
  void everyMonthStaysWithinTheErrorBudget(
      Climate climate, String name, TowerDesign design, double setPointC, double loadScale) {
    Year year = Year.of(climate, design, setPointC, loadScale);
    double[] fast = new double[year.heatW.length];
    ResponseTable table = ResponseTable.of(design);
    WetTower direct = WetTower.of(design);
    table.evaporation(
        year.heatW, year.dryBulbC, year.wetBulbC, year.pressurePa, year.setPointC, fast);
    double[] tableMonth = new double[12];
    double[] directMonth = new double[12];
    for (int i = 0; i < fast.length; i++) {
      MoistAir air = MoistAir.fromWetBulb(year.dryBulbC[i], year.wetBulbC[i], year.pressurePa[i]);
      int month = Math.min(11, i * 12 / fast.length);
      tableMonth[month] += fast[i];
      directMonth[month] += direct.operate(year.heatW[i], air, setPointC).evaporationKgS();
    }
    for (int m = 0; m < 12; m++) {
      assertThat(tableMonth[m])
          .as("month %d of climate %s, %s", m + 1, climate, name)
          .isCloseTo(directMonth[m], within(MONTH_BUDGET * directMonth[m]));
    }
  }

  /** Single hours may be further off than a month: 3 % at worst, 0.4 % on average. */
  @Test
  void singleHoursStayCloseToo() {
    Random random = new Random(5);
    TowerDesign design = TowerDesign.open(point(101_325, 35, 29.44, 25.56, 1.2));
    ResponseTable table = ResponseTable.of(design);
    WetTower direct = WetTower.of(design);
    double sum = 0;
    int hours = 1500;
    for (int i = 0; i < hours; i++) {
      double dryBulbC = -20 + 62 * random.nextDouble();
      double pressurePa = 101_325 * (0.93 + 0.14 * random.nextDouble());
      MoistAir air =
          MoistAir.fromRelativeHumidity(dryBulbC, 0.06 + 0.94 * random.nextDouble(), pressurePa);
      double wetBulbC = air.wetBulbC();
      if (wetBulbC > 33) {
        continue;
      }
      double heatW = design.point().heatW() * (0.03 + 1.4 * random.nextDouble());
      double setPointC = 6 + 28 * random.nextDouble();
      double fast = table.evaporationKgS(heatW, dryBulbC, wetBulbC, pressurePa, setPointC);
      double slow = direct.operate(heatW, air, setPointC).evaporationKgS();
      double error = Math.abs(fast / slow - 1);
      sum += error;
      assertThat(error)
          .as("hour %s, load %s, set-point %s", air, heatW, setPointC)
          .isLessThan(0.03);
    }
    assertThat(sum / hours).isLessThan(0.004);
  }

  /** Outside the table the answer is the direct one, not an extrapolation. */
  @Test
  void hoursOutsideTheTableAreComputedDirectly() {
    TowerDesign design = TowerDesign.open(point(101_325, 35, 29.44, 25.56, 1.2));
    ResponseTable table = ResponseTable.of(design);
    double heatW = 2.2 * design.point().heatW();
    assertThat(table.covers(2.2, 20, 15, 101_325, 24)).isFalse();
    assertThat(table.evaporationKgS(heatW, 20, 15, 101_325, 24))
        .isEqualTo(
            WetTower.of(design)
                .operate(heatW, MoistAir.fromWetBulb(20, 15, 101_325), 24)
                .evaporationKgS());
    assertThat(table.covers(0.5, 20, 15, 70_000, 24)).isFalse();
  }

  @Test
  void unknownHoursStayUnknownAndIdleHoursEvaporateNothing() {
    ResponseTable table = ResponseTable.of(TowerDesign.open(point(101_325, 35, 29.44, 25.56, 1.2)));
    assertThat(table.evaporationKgS(1e6, Double.NaN, 15, 101_325, 24)).isNaN();
    assertThat(table.evaporationKgS(0, 20, 15, 101_325, 24)).isZero();
  }

  /** A coil tower is answered by its closed solution. */
  @Test
  void coilTowersNeedNoTable() {
    TowerDesign design =
        TowerDesign.open(
                DesignPoint.withUsualAirFlow(
                    50, 35, 29.44, MoistAir.fromWetBulb(35, 25.56, 101_325)))
            .withKind(TowerKind.HYBRID);
    ResponseTable table = ResponseTable.of(design);
    assertThat(table.evaporationKgS(1e6, 30, 22, 101_325, 29))
        .isEqualTo(
            WetTower.of(design)
                .operate(1e6, MoistAir.fromWetBulb(30, 22, 101_325), 29)
                .evaporationKgS());
  }

  /** Sprayed coils need more air than fills; a nameplate that lacks it is not bent to fit. */
  @Test
  void refusesCoilTowerWithTooLittleAirForItsDesignPoint() {
    TowerDesign design =
        TowerDesign.open(point(101_325, 35, 29.44, 25.56, 0.8)).withKind(TowerKind.CLOSED_CIRCUIT);
    assertThatThrownBy(() -> ResponseTable.of(design))
        .isInstanceOf(OutOfRangeException.class)
        .hasMessageContaining("design air flow of 62.5 kg/s of dry air is too small")
        .hasMessageContaining("needs at least 118")
        .hasMessageContaining("leave it out if it is not known");
  }

  /** Weather and load of every seventh hour of a year. */
  private record Year(
      double[] heatW,
      double[] dryBulbC,
      double[] wetBulbC,
      double[] pressurePa,
      double[] setPointC) {

    static Year of(Climate climate, TowerDesign design, double setPointC, double loadScale) {
      int n = HOURS / STEP;
      Year year =
          new Year(new double[n], new double[n], new double[n], new double[n], new double[n]);
      Random random = new Random(20);
      double drift = 0;
      for (int i = 0; i < n; i++) {
        int hour = i * STEP;
        double season = -Math.cos(2 * Math.PI * (hour - 600) / HOURS);
        double day = -Math.cos(2 * Math.PI * (hour % 24 - 3) / 24);
        drift = 0.97 * drift + 0.9 * random.nextGaussian();
        double t = climate.meanC() + climate.yearlyK() * season + climate.dailyK() * day + drift;
        double humidity =
            Math.min(1, Math.max(0.06, climate.humidity() - 0.18 * day + 0.03 * drift));
        double p = climate.pressurePa() * (1 + 0.006 * random.nextGaussian());
        year.dryBulbC[i] = t;
        year.wetBulbC[i] = Math.min(t, MoistAir.fromRelativeHumidity(t, humidity, p).wetBulbC());
        year.pressurePa[i] = p;
        year.setPointC[i] = setPointC;
        double weather = Math.max(0, Math.min(1, (t + 5) / 40));
        double working = hour % 24 >= 7 && hour % 24 < 20 ? 1 : 0.35;
        double load = loadScale * working * (0.15 + 0.85 * weather);
        year.heatW[i] = design.point().heatW() * Math.max(load, 0.02);
      }
      return year;
    }
  }
}
