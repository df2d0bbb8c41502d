package towerledger.simulation.demo;

import static org.assertj.core.api.Assertions.assertThat;

import java.io.IOException;
import java.nio.file.Files;
import java.nio.file.Path;
import java.util.List;
import java.util.stream.Stream;
import org.junit.jupiter.api.MethodOrderer;
import org.junit.jupiter.api.Order;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.api.TestMethodOrder;
import org.junit.jupiter.api.condition.EnabledIfSystemProperty;
import org.junit.jupiter.api.io.TempDir;

@TestMethodOrder(MethodOrderer.OrderAnnotation.class)
class DemoBundleTest {

  private static final Path COMMITTED = Path.of("demo-data");

  /** {@code mvn test -Dtest=DemoBundleTest -Dtowerledger.demo.write=true} */
  @Test
  @Order(1)
  @EnabledIfSystemProperty(named = "towerledger.demo.write", matches = "true")
  void writesTheDemoAnew() {
    DemoBundle.simulate().write(COMMITTED);

    assertThat(COMMITTED.resolve("visits.csv")).isNotEmptyFile();
  }

  @Test
  void theCommittedDemoIsWhatTheGeneratorWrites(@TempDir Path fresh) throws IOException {
    DemoBundle.simulate().write(fresh);

    assertThat(names(COMMITTED)).isEqualTo(names(fresh));
    for (String name : names(fresh)) {
      assertThat(Files.mismatch(COMMITTED.resolve(name), fresh.resolve(name)))
          .as(
              "first differing byte of demo-data/%s; write it anew with -Dtowerledger.demo.write=true",
              name)
          .isEqualTo(-1);
    }
  }

  @Test
  void theDemoStaysSmall() throws IOException {
    long bytes = 0;
    for (String name : names(COMMITTED)) {
      bytes += Files.size(COMMITTED.resolve(name));
    }

    assertThat(bytes).isLessThan(8_000_000);
  }

  private static List<String> names(Path folder) throws IOException {
    try (Stream<Path> files = Files.list(folder)) {
      return files
          .map(file -> file.getFileName().toString())
          .filter(name -> name.endsWith(".csv"))
          .sorted()
          .toList();
    }
  }
}
