package towerledger.thermal;

import static org.assertj.core.api.Assertions.assertThat;

import java.util.Random;
import org.junit.jupiter.api.Test;
import towerledger.psychrometrics.MoistAir;

/** The hours of a place, added up beforehand, against the look-up of each hour by itself. */
class ResponseSeriesTest {

  private static final int HOURS = 4000;
  private static final double PRESSURE_PA = 95_000;
  private static final TowerDesign DESIGN =
      TowerDesign.open(
          DesignPoint.withUsualAirFlow(100, 36, 30, MoistAir.fromWetBulb(34.5, 25.5, PRESSURE_PA)));

  private final double[] dryBulbC = new double[HOURS];
  private final double[] wetBulbC = new double[HOURS];
  private final double[] pressurePa = new double[HOURS];
  private final double[] heatW = new double[HOURS];
  private final double[] setPointC = new double[HOURS];

  ResponseSeriesTest() {
    Random random = new Random(20_260_101);
    for (int h = 0; h < HOURS; h++) {
      // Beyond the table now and then: colder, hotter, thinner air, more heat, warmer water.
      wetBulbC[h] = -32 + 68 * random.nextDouble();
      dryBulbC[h] = wetBulbC[h] + (wetBulbC[h] < 12 ? 0.3 : 20) * random.nextDouble();
      pressurePa[h] = PRESSURE_PA * (0.9 + 0.2 * random.nextDouble());
      heatW[h] = DESIGN.point().heatW() * 1.8 * random.nextDouble() * random.nextDouble();
      setPointC[h] = 8 + 46 * random.nextDouble() * random.nextDouble();
    }
    heatW[17] = 0;
    wetBulbC[18] = Double.NaN;
    heatW[19] = Double.NaN;
  }

  @Test
  void saysToTheLastDigitWhatTheTableSaysOfEveryHour() {
    ResponseTable table = ResponseTable.of(DESIGN);
    double[] byTable = new double[HOURS];
    double[] bySeries = new double[HOURS];

    table.evaporation(heatW, dryBulbC, wetBulbC, pressurePa, setPointC, byTable);
    ResponseSeries.of(table, dryBulbC, wetBulbC, pressurePa, 30)
        .orElseThrow()
        .evaporation(0, heatW, setPointC, bySeries);

    assertThat(bySeries).containsExactly(byTable);
    assertThat(byTable[17]).isZero();
    assertThat(byTable[18]).isNaN();
    assertThat(byTable[19]).isNaN();
  }

  @Test
  void knowsNothingOfHoursOutsideThePlace() {
    double[] into = new double[HOURS];

    ResponseSeries.of(ResponseTable.of(DESIGN), dryBulbC, wetBulbC, pressurePa, 0)
        .orElseThrow()
        .evaporation(-2, heatW, setPointC, into);

    assertThat(into[0]).isNaN();
    assertThat(into[1]).isNaN();
    assertThat(into[2]).isNotNaN();
  }

  @Test
  void leavesFansThatAlternateToTheTable() {
    ResponseTable table = ResponseTable.of(DESIGN.withFanControl(FanControl.TWO_SPEED));

    assertThat(ResponseSeries.of(table, dryBulbC, wetBulbC, pressurePa, 0)).isEmpty();
  }
}
