package towerledger.logsheet;

import static org.assertj.core.api.Assertions.assertThat;

import java.io.IOException;
import java.nio.file.Files;
import java.nio.file.Path;
import java.util.Arrays;
import org.junit.jupiter.api.Test;
import towerledger.balance.facts.InspectionFinding;
import towerledger.balance.facts.Visit;

/** Whoever writes a file of visits has only the description of the files to go by. */
class VisitCodesTest {

  @Test
  void everyCodeOfAVisitStandsInTheDescriptionOfTheFiles() throws IOException {
    String described = Files.readString(Path.of("docs", "formats.md"));

    assertThat(Arrays.stream(InspectionFinding.values()).map(InspectionFinding::code))
        .allSatisfy(code -> assertThat(described).contains("`" + code + "`"));
    assertThat(Arrays.stream(Visit.Event.values()).map(VisitCodes::code))
        .allSatisfy(code -> assertThat(described).contains("`" + code + "`"));
  }
}
