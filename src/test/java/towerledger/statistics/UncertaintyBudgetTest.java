package towerledger.statistics;

import static org.assertj.core.api.Assertions.assertThat;
import static org.assertj.core.api.Assertions.within;

import java.util.Random;
import org.junit.jupiter.api.Test;

class UncertaintyBudgetTest {

  /** JCGM 100:2008 Annex H.1, table H.1 and H.1.6 (values from memory of the document). */
  @Test
  void endGaugeOfTheGuideComesOutAsPrinted() {
    UncertaintyBudget endGauge =
        new UncertaintyBudget()
            .add("length of the standard", 1, 25, 18)
            .add("difference of lengths", 1, 9.7, 25.6)
            .add("difference of expansion", 1, 2.9, 50)
            .add("difference of temperature", 1, 16.6, 2);

    assertThat(endGauge.combined()).isCloseTo(32, within(0.5));
    assertThat(Math.floor(endGauge.effectiveDegreesOfFreedom())).isEqualTo(16);
    assertThat(endGauge.expanded(0.99)).isCloseTo(93, within(1.0));
  }

  @Test
  void firstOrderAgreesWithMonteCarloForMakeupFromEvaporationAndCycles() {
    double evaporation = 1000;
    double evaporationDeviation = 60;
    double cycles = 4;
    double cyclesDeviation = 0.2;
    UncertaintyBudget budget =
        new UncertaintyBudget()
            .add("evaporation", cycles / (cycles - 1), evaporationDeviation)
            .add("cycles", -evaporation / ((cycles - 1) * (cycles - 1)), cyclesDeviation);

    Random random = new Random(20);
    int trials = 200_000;
    double sum = 0;
    double squares = 0;
    for (int i = 0; i < trials; i++) {
      double c = cycles + cyclesDeviation * random.nextGaussian();
      double makeup = (evaporation + evaporationDeviation * random.nextGaussian()) * c / (c - 1);
      sum += makeup;
      squares += makeup * makeup;
    }
    double deviation = Math.sqrt(squares / trials - sum * sum / trials / trials);

    assertThat(budget.combined()).isCloseTo(deviation, within(0.02 * deviation));
  }

  @Test
  void inputsThatGoTogetherAddUpLinearly() {
    UncertaintyBudget budget =
        new UncertaintyBudget().add("first", 1, 3).add("second", 1, 4).correlate(0, 1, 1);

    assertThat(budget.combined()).isCloseTo(7, within(1e-12));
  }
}
