package towerledger.thermal.water;

import static org.assertj.core.api.Assertions.assertThat;
import static org.assertj.core.api.Assertions.assertThatThrownBy;
import static org.assertj.core.api.Assertions.within;

import org.junit.jupiter.api.Test;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.CsvFileSource;
import org.junit.jupiter.params.provider.CsvSource;
import towerledger.quantity.OutOfRangeException;
import towerledger.quantity.Pressure;
import towerledger.quantity.Units;

/** Balances of a basin, valves and holes against what others published. */
class PublishedWaterTest {

  /**
   * The cycles table of FEMP Best Management Practice #10 / EPA WaterSense at Work 6.3, quoted from
   * memory: within 1.1 points, since three of its recalled cells do not round from the balance.
   */
  @ParameterizedTest(name = "from {0} to {1} cycles")
  @CsvFileSource(resources = "/reference/femp_cycles_table.csv", numLinesToSkip = 3)
  void makeupSavedMeetsTheCyclesTable(
      double from, double to, double publishedPercent, double exactPercent) {
    double saved = 100 * Concentration.makeupSavedShare(from, to);
    assertThat(saved).isCloseTo(exactPercent, within(0.0006));
    assertThat(saved).isCloseTo(publishedPercent, within(1.1));
  }

  /** From 3 to 6 cycles: 20 % of makeup, 60 % of the bleed (a widespread leaflet says 50 %). */
  @Test
  void threeToSixCyclesSaveSixtyPercentOfTheBleed() {
    assertThat(Concentration.makeupSavedShare(3, 6)).isCloseTo(0.20, within(1e-12));
    assertThat(Concentration.concentratedLossSavedShare(3, 6)).isCloseTo(0.60, within(1e-12));
  }

  /**
   * A worked trial of a cooling tower in the BEE guidebook, chapter 7 (from memory): 22,775 m³/h,
   * range 5.3 K, 2.7 cycles: bleed about 109 and makeup about 293 m³/h at 185 m³/h evaporated.
   */
  @Test
  void bleedMeetsTheWorkedTrial() {
    double evaporation = 0.00085 * 1.8 * 22_775 * 5.3;
    assertThat(evaporation).isCloseTo(185, within(0.5));
    assertThat(Concentration.concentratedLoss(evaporation, 2.7)).isCloseTo(109, within(0.5));
    assertThat(Concentration.makeup(evaporation, 2.7)).isCloseTo(293.5, within(0.7));
  }

  /**
   * Drift of published classes in gallons per 1000 gallons: EPA AP-42 section 13.4, 0.02 %, is 1.7
   * lb per 1000 gal (from memory); codes limit cross-flow towers to 0.005 % (seen, a city's page)
   * and counter-flow towers to 0.002 % (from memory).
   */
  @ParameterizedTest
  @CsvSource({"0.0002, 1.7", "0.00005, 0.417", "0.00002, 0.167"})
  void driftMeetsPublishedClasses(double share, double poundsPerThousandGallons) {
    double gallons = Concentration.drift(1000, share);
    double pounds = gallons * Units.LITRES_PER_US_GALLON * 0.998 / 0.45359237;
    assertThat(pounds).isCloseTo(poundsPerThousandGallons, within(0.03 * poundsPerThousandGallons));
  }

  /** Drift carries solids: it counts as bleed (EnergyPlus Engineering Reference). */
  @Test
  void driftCountsAsBleed() {
    assertThat(Concentration.neededBlowdown(100, 5, 2)).isCloseTo(23, within(1e-12));
    assertThat(Concentration.excessLoss(100, 2, 23, 0, 5)).isCloseTo(0, within(1e-12));
    assertThat(Concentration.excessLoss(100, 2, 23, 10, 5)).isCloseTo(10, within(1e-12));
    assertThat(Concentration.waste(-3, 4)).isEqualTo(4);
  }

  /**
   * Leak charts of four water utilities (sources in the file): holes of 1/16" to 1/4" at 60 psi.
   * They imply discharge coefficients of 0.615 to 0.625, so 0.61 falls at most 2.6 % short.
   */
  @ParameterizedTest(name = "{0} in at {1} psi")
  @CsvFileSource(resources = "/reference/leak_chart_checks.csv", numLinesToSkip = 2)
  void orificeMeetsLeakCharts(
      double diameterIn,
      double psi,
      String published,
      String unit,
      double impliedGallonsPerDay,
      double orificeGallonsPerDay,
      double impliedCoefficient) {
    double day = gallonsPerDay(diameterIn, psi, Discharge.USUAL_COEFFICIENT);
    assertThat(day).isCloseTo(orificeGallonsPerDay, within(0.003 * orificeGallonsPerDay));
    assertThat(day).isCloseTo(impliedGallonsPerDay, within(0.026 * impliedGallonsPerDay));
    assertThat(gallonsPerDay(diameterIn, psi, impliedCoefficient))
        .isCloseTo(impliedGallonsPerDay, within(0.005 * impliedGallonsPerDay));
  }

  private static double gallonsPerDay(double diameterIn, double psi, double coefficient) {
    return Discharge.throughHole(
                diameterIn * Units.MILLIMETRES_PER_INCH, Pressure.ofPsi(psi), coefficient)
            .usGallonsPerMinute()
        * 1440;
  }

  /** Q = Cv √Δp in gpm and psi: the definition of Cv. */
  @ParameterizedTest
  @CsvSource({"13, 1, 13", "13, 25, 65", "48, 60, 371.81"})
  void valveFlowMeetsTheDefinitionOfCv(double cv, double psi, double gpm) {
    double kv = cv * Units.KV_PER_CV;
    assertThat(Discharge.throughValve(kv, Pressure.ofPsi(psi)).usGallonsPerMinute())
        .isCloseTo(gpm, within(1e-4 * gpm));
  }

  /**
   * MODEL: under conductivity control a loss below the needed bleed draws nothing in steady state.
   */
  @Test
  void conductivityControlHidesSmallLosses() {
    BleedControl.LossEffect small = BleedControl.CONDUCTIVITY.effectOf(100, 0, 5, 10);
    assertThat(small.extraWater()).isZero();
    assertThat(small.displacedBleed()).isEqualTo(10);
    assertThat(small.cycles()).isCloseTo(5, within(1e-12));
    BleedControl.LossEffect large = BleedControl.CONDUCTIVITY.effectOf(100, 0, 5, 40);
    assertThat(large.extraWater()).isCloseTo(15, within(1e-12));
    assertThat(large.cycles()).isCloseTo(3.5, within(1e-12));
  }

  /** MODEL: bleed in proportion to makeup feeds itself, 110–140 % of the loss. */
  @ParameterizedTest
  @CsvSource({"3.5, 1.4", "5, 1.25", "8, 1.1429"})
  void proportionalBleedFeedsItself(double cycles, double factor) {
    BleedControl.LossEffect effect = BleedControl.MAKEUP_PROPORTIONAL.effectOf(100, 0, cycles, 10);
    assertThat(effect.extraWater()).isCloseTo(10 * factor, within(0.001 * factor * 10));
  }

  @Test
  void timerBleedPaysTheWholeLoss() {
    assertThat(BleedControl.TIMER.effectOf(100, 1, 4, 7).extraWater()).isCloseTo(7, within(1e-12));
    assertThat(BleedControl.MANUAL.effectOf(100, 1, 4, 7).displacedBleed()).isZero();
    assertThat(BleedControl.NONE.effectOf(100, 2, 4, 8).cycles()).isCloseTo(11, within(1e-12));
  }

  /** What stacks is an identity, whatever the parts. */
  @Test
  void partsStackToTheMakeup() {
    MakeupAccount account = MakeupAccount.of(1000, 612.3, 4.1, 150, 88.8, 40.2, 12, -7.7, 3.3);
    assertThat(account.sum()).isCloseTo(1000, within(1e-9));
    assertThat(account.residual()).isCloseTo(97.0, within(1e-9));
  }

  /**
   * The solved basin equation against a step-by-step one, and its steady state against the cycles.
   */
  @Test
  void basinSettlesAtItsCycles() {
    Basin basin = new Basin(20_000);
    double stepwise = 300;
    for (int i = 0; i < 100_000; i++) {
      stepwise += (500 * 300 - 100 * stepwise) / 20_000 * 0.001;
    }
    assertThat(basin.concentrationAfter(300, 300, 400, 100, 100)).isCloseTo(stepwise, within(0.1));
    assertThat(basin.concentrationAfter(300, 300, 400, 100, 5000))
        .isCloseTo(300 * Concentration.cycles(400, 100), within(0.01));
    assertThat(basin.timeConstantHours(100)).isEqualTo(200);
  }

  @Test
  void fillingTakesItsTimeOrNeverEnds() {
    assertThat(Basin.hoursToFill(1000, 600, 100)).isEqualTo(2);
    assertThat(Basin.hoursToFill(1000, 100, 100)).isInfinite();
    assertThat(Basin.overflowLPerHour(600, 100)).isEqualTo(500);
  }

  @Test
  void missingCalciumIsScaleUnlessChlorineIsDosed() {
    assertThat(IonCheck.of(4.6, 5, false)).isEqualTo(IonCheck.AGREE);
    assertThat(IonCheck.of(3.2, 5, false)).isEqualTo(IonCheck.SCALING);
    assertThat(IonCheck.of(3.2, 5, true)).isEqualTo(IonCheck.SCALING_OR_BIOCIDE);
    assertThat(IonCheck.of(6.5, 5, false)).isEqualTo(IonCheck.IMPLAUSIBLE);
  }

  @Test
  void refusesCyclesThatCannotBe() {
    assertThatThrownBy(() -> Concentration.makeup(100, 1))
        .isInstanceOf(OutOfRangeException.class)
        .hasMessage(
            "cycles of 1 must be above 1 and at most 100; cycles are basin over makeup conductivity;"
                + " check both readings");
    assertThatThrownBy(() -> Concentration.drift(100, 0.2))
        .isInstanceOf(OutOfRangeException.class)
        .hasMessageContaining("give it as a share, not in percent");
    assertThatThrownBy(() -> Discharge.throughHole(3, Pressure.ofPsi(-1), 0.61))
        .isInstanceOf(OutOfRangeException.class)
        .hasMessageContaining("must not be negative");
  }
}
