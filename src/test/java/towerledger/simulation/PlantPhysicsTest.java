package towerledger.simulation;

import static org.assertj.core.api.Assertions.assertThat;
import static org.assertj.core.api.Assertions.within;

import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.CsvSource;

/** The simulator has to be believable before anything is judged by it. */
class PlantPhysicsTest {

  /**
   * The first case takes its inputs from Kloppers (2003), Appendix G; the answers of all were
   * computed with Kröger's property fits. Ideal-gas air with Buck's saturation moves the Merkel
   * number by up to two percent where the approach is small, and the evaporation by half a percent.
   */
  @ParameterizedTest
  @CsvSource({
    "101712.27,9.7,0.0061634,39.67,27.77,3.999,4.134,0.73674,0.062768",
    "101325,35.0,0.0168729,35.0,29.44,12.0,10.0,1.26594,0.121596",
    "93000,40.0,0.009257,35.0,27.0,12.0,10.0,1.26227,0.189941",
    "100500,33.0,0.0204259,36.0,30.5,12.0,10.0,1.25894,0.11096",
    "100000,0.0,0.0031618,24.0,16.0,10.0,10.0,1.05825,0.087227",
    "101325,15.0,0.006557,27.0,20.0,10.0,10.0,1.28479,0.09288",
    "95500,36.9,0.0086593,38.0,26.0,5.0,10.0,1.27762,0.112221"
  })
  void integratesPoppeLikePublishedInputsDemand(
      double pa,
      double dryC,
      double ratio,
      double hotC,
      double coldC,
      double waterKgS,
      double airKgS,
      double merkel,
      double evaporationKgS) {
    FilmTower tower =
        new FilmTower(waterKgS, waterKgS / airKgS, 0.6, 0.1, hotC, coldC, dryC, ratio, pa);

    double computed = tower.merkel(coldC, hotC, airKgS, dryC, ratio, pa);

    assertThat(computed).isCloseTo(merkel, within(0.025 * merkel));
    assertThat(airKgS * (tower.outletRatio() - ratio))
        .isCloseTo(evaporationKgS, within(0.006 * evaporationKgS));
  }
}
