package towerledger.simulation.fleet;

import static org.assertj.core.api.Assertions.assertThat;

import java.io.IOException;
import java.nio.charset.StandardCharsets;
import java.nio.file.Files;
import java.nio.file.Path;
import java.util.ArrayList;
import java.util.List;
import org.junit.jupiter.api.Tag;
import org.junit.jupiter.api.Test;
import towerledger.simulation.Climate;

/** The full fleets; {@code mvn test -Pfleet} writes target/fleet-report.md. */
@Tag("fleet")
class FleetTest {

  private static final int TOWERS = Integer.getInteger("towerledger.fleet.towers", 60);
  private static final long SEED = Long.getLong("towerledger.fleet.seed", 1L);

  @Test
  void judgesFourFleetsAndAField() throws IOException {
    List<ScoredPlant> all = new ArrayList<>();
    FleetReport single = new FleetReport();
    for (Climate climate : Climate.values()) {
      List<ScoredPlant> fleet =
          Fleet.judge(
              new FleetPlan(climate.name(), climate, TOWERS, 0.5, 1000 * SEED + climate.ordinal()));
      single.fleet("Fleet " + climate.name().toLowerCase(java.util.Locale.ROOT), fleet);
      all.addAll(fleet);
    }
    List<ScoredPlant> field = new ArrayList<>();
    for (Climate climate : Climate.values()) {
      field.addAll(
          Fleet.judge(
              new FleetPlan(
                  "field", climate, TOWERS, 0.08, 1000 * SEED + 100 + climate.ordinal())));
    }
    String report =
        new FleetReport()
                .title("Simulated fleets")
                .fleet("All four fleets, half of the plants faulty", all)
                .byCause(all)
                .falseFlags(all)
                .fleet("The field: 8 % of the plants faulty", field)
                .falseFlags(field)
                .text()
            + single.text();
    Path page = Path.of("target", "fleet-report.md");
    Files.writeString(page, report, StandardCharsets.UTF_8);

    assertThat(all).hasSize(4 * TOWERS);
    assertThat(FleetFigures.falseEpisodes(all, ScoredMonth::flagged))
        .as("false-flag episodes a sound tower-year; see %s", page)
        .isLessThanOrEqualTo(0.10);
    assertThat(FleetFigures.precision(all, ScoredMonth::wasteFlag)).isGreaterThanOrEqualTo(0.85);
    assertThat(FleetFigures.recall(all, ScoredMonth::wasteFlag)).isGreaterThanOrEqualTo(0.78);
  }
}
