package towerledger.statistics;

import static org.assertj.core.api.Assertions.assertThat;
import static org.assertj.core.api.Assertions.within;

import java.util.Random;
import org.junit.jupiter.api.Test;

class NormalMixtureTest {

  @Test
  void quantilesTurnTheCumulativeRound() {
    Random random = new Random(8);
    for (int components : new int[] {1, 3, 80}) {
      NormalMixture mixture = new NormalMixture();
      for (int i = 0; i < components; i++) {
        double weight = Math.exp(-6 * random.nextDouble());
        mixture.add(weight, 100 * random.nextGaussian(), 20 + 30 * random.nextDouble());
      }
      for (double p : new double[] {0.025, 0.3, 0.5, 0.975}) {
        assertThat(mixture.cumulative(mixture.quantile(p))).isCloseTo(p, within(2e-7));
      }
    }
  }
}
