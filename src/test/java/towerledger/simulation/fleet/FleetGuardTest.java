package towerledger.simulation.fleet;

import static org.assertj.core.api.Assertions.assertThat;

import java.util.ArrayList;
import java.util.List;
import java.util.function.Predicate;
import org.junit.jupiter.api.BeforeAll;
import org.junit.jupiter.api.Test;
import towerledger.simulation.Climate;

/**
 * A fleet small enough for every build. Its limits lie below the aims of {@code docs/detection.md},
 * because so few plants scatter; they catch a model that got worse, not one that falls short.
 */
class FleetGuardTest {

  private static final List<ScoredPlant> PLANTS = new ArrayList<>();

  @BeforeAll
  static void judge() {
    for (Climate climate : List.of(Climate.HOT_DRY, Climate.TEMPERATE)) {
      PLANTS.addAll(
          Fleet.judge(new FleetPlan("guard", climate, 12, 0.5, 7_700 + climate.ordinal())));
    }
  }

  @Test
  void wasteIsFoundAndSoundPlantsAreLeftAlone() {
    assertThat(FleetFigures.precision(PLANTS, ScoredMonth::wasteFlag)).isGreaterThan(0.7);
    assertThat(FleetFigures.recall(PLANTS, ScoredMonth::wasteFlag)).isGreaterThan(0.6);
    assertThat(FleetFigures.falseEpisodes(PLANTS, ScoredMonth::flagged)).isLessThan(0.2);
  }

  @Test
  void bothSpreadsheetsDoWorseOnEveryCount() {
    for (Predicate<ScoredMonth> sheet :
        List.<Predicate<ScoredMonth>>of(ScoredMonth::thumbFlag, ScoredMonth::yearFlag)) {
      assertThat(FleetFigures.precision(PLANTS, ScoredMonth::wasteFlag))
          .isGreaterThan(FleetFigures.precision(PLANTS, sheet));
      assertThat(FleetFigures.recall(PLANTS, ScoredMonth::wasteFlag))
          .isGreaterThan(FleetFigures.recall(PLANTS, sheet));
      assertThat(FleetFigures.falseEpisodes(PLANTS, ScoredMonth::flagged))
          .isLessThan(FleetFigures.falseEpisodes(PLANTS, sheet));
    }
  }

  @Test
  void figuresHoldWhatTheirBoundsPromise() {
    assertThat(FleetFigures.coverage(PLANTS, false)).isBetween(0.88, 0.995);
    assertThat(FleetFigures.medianLossError(PLANTS, true)).isLessThan(0.2);
    assertThat(FleetFigures.evaporationError(PLANTS, 'A')).isLessThan(0.045);
  }

  /** FORMATS: makeup is the sum of its parts, to rounding, whatever happened. */
  @Test
  void partsStackToTheMakeupInEveryMonth() {
    for (ScoredPlant plant : PLANTS) {
      for (ScoredMonth month : plant.months()) {
        var w = month.verdict().water();
        if (w.residual().isPresent() && w.makeup().isPresent()) {
          double makeup = w.makeup().get().value().litres();
          double sum =
              w.evaporation().orElseThrow().value().litres()
                  + w.drift().orElseThrow().litres()
                  + w.neededBlowdown().map(v -> v.litres()).orElse(0.0)
                  + w.excessLoss().orElseThrow().litres()
                  + w.freshLoss().orElseThrow().litres()
                  + w.otherUse().map(v -> v.litres()).orElse(0.0)
                  + w.storageChange().orElseThrow().litres()
                  + w.meterCorrection().orElseThrow().litres()
                  + w.residual().get().litres();
          assertThat(sum)
              .as("%s in %s", plant.plant(), month.truth().month())
              .isCloseTo(makeup, org.assertj.core.api.Assertions.within(1e-6 * (1 + makeup)));
        }
      }
    }
  }
}
