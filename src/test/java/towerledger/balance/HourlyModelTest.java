package towerledger.balance;

import static org.assertj.core.api.Assertions.assertThat;

import java.time.Instant;
import java.util.ArrayList;
import org.junit.jupiter.api.Test;
import towerledger.balance.facts.SystemFacts;
import towerledger.thermal.ResponseTable;

/**
 * An economizer cools without the chiller in the cold: how much then evaporates is vague, unless
 * something meters the heat.
 */
class HourlyModelTest {

  private static final int HOURS = 24 * 365;
  private static final double FREE_BELOW_C = 5;

  @Test
  void hoursOfFreeCoolingAreVagueWhereNothingMetersTheHeat() {
    MadeUpSystem silent = economizer();
    silent.heatKnown = day -> false;
    SystemFacts facts = silent.facts();
    boolean[] vague = hours(facts).vague();
    int cold = 0;
    for (int h = 0; h < HOURS; h++) {
      boolean free = facts.weather().dryBulbC(h) < FREE_BELOW_C;
      cold += free ? 1 : 0;
      assertThat(vague[h]).as("hour %d at %.1f °C", h, facts.weather().dryBulbC(h)).isEqualTo(free);
    }
    assertThat(cold).as("cold hours").isGreaterThan(500);
  }

  @Test
  void meteredHeatMakesFreeCoolingCertain() {
    assertThat(hours(economizer().facts()).vague()).doesNotContain(true);
  }

  @Test
  void onlyTheDaysOnWhichTheMeterWasSilentAreVague() {
    MadeUpSystem gap = economizer();
    gap.heatKnown = day -> day < 10 || day >= 20;
    boolean[] vague = hours(gap.facts()).vague();
    for (int h = 0; h < HOURS; h++) {
      if (vague[h]) {
        assertThat(h / 24).as("day of a vague hour").isBetween(10, 19);
      }
    }
    assertThat(vague).contains(true);
  }

  private static SystemHours hours(SystemFacts facts) {
    Instant start = facts.weather().start();
    return HourlyModel.of(
        facts, start, HOURS, new TowerTables(ResponseTable::of), new ArrayList<>());
  }

  private static MadeUpSystem economizer() {
    MadeUpSystem system = new MadeUpSystem();
    system.watersideEconomizer = true;
    return system;
  }
}
