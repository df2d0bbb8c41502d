package towerledger.balance;

import static org.assertj.core.api.Assertions.assertThat;

import java.util.List;
import java.util.Optional;
import java.util.OptionalDouble;
import org.junit.jupiter.api.Test;
import towerledger.balance.facts.SystemFacts;
import towerledger.balance.facts.TowerFacts;
import towerledger.thermal.ResponseTable;

/** Nameplates as people copy them. */
class TowerModelTest {

  private static final double SEA_LEVEL_PA = 101_325;

  @Test
  void aWetBulbNoAirCanHaveBesideTheUsualDryBulbGivesWayToTheUsualDesignPoint() {
    // 9 K below the dry bulb at -18 °C: even dry air has a higher wet bulb
    TowerModel model =
        TowerModel.of(facts(-18.3, OptionalDouble.empty()), SEA_LEVEL_PA, ResponseTable::of);

    assertThat(model.assumptions())
        .anyMatch(text -> text.contains("not possible") && text.contains("wet bulb -18.3 °C"));
  }

  @Test
  void aDryBulbNoAirCanHaveBesideTheWetBulbIsNotBelieved() {
    TowerModel model =
        TowerModel.of(facts(10, OptionalDouble.of(60)), SEA_LEVEL_PA, ResponseTable::of);

    assertThat(model.assumptions()).noneMatch(text -> text.contains("not possible"));
  }

  private static SystemFacts facts(double wetBulbC, OptionalDouble dryBulbC) {
    SystemFacts made = new MadeUpSystem().facts();
    TowerFacts tower =
        new TowerFacts(
            "T",
            1,
            Optional.empty(),
            1_318_000,
            OptionalDouble.empty(),
            OptionalDouble.of(35),
            OptionalDouble.of(29),
            OptionalDouble.of(wetBulbC),
            dryBulbC,
            OptionalDouble.empty(),
            OptionalDouble.empty(),
            Optional.empty(),
            OptionalDouble.empty(),
            Optional.empty());
    return new SystemFacts(
        made.system(),
        made.zone(),
        made.attributes(),
        List.of(tower),
        made.settings(),
        made.weather(),
        made.heat(),
        made.meters(),
        made.samples(),
        made.pressures(),
        made.visits());
  }
}
