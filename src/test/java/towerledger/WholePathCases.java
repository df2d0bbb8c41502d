package towerledger;

import static org.assertj.core.api.Assertions.assertThat;
import static org.springframework.test.web.servlet.request.MockMvcRequestBuilders.get;
import static org.springframework.test.web.servlet.request.MockMvcRequestBuilders.post;
import static org.springframework.test.web.servlet.result.MockMvcResultMatchers.status;

import java.io.ByteArrayOutputStream;
import java.io.IOException;
import java.io.StringReader;
import java.nio.file.Files;
import java.nio.file.Path;
import java.time.Duration;
import java.time.Instant;
import java.util.List;
import java.util.Set;
import java.util.stream.Collectors;
import java.util.stream.Stream;
import java.util.zip.ZipEntry;
import java.util.zip.ZipOutputStream;
import org.apache.commons.csv.CSVFormat;
import org.apache.commons.csv.CSVRecord;
import org.junit.jupiter.api.Test;
import org.springframework.beans.factory.annotation.Autowired;
import org.springframework.test.web.servlet.MockMvc;
import tools.jackson.databind.JsonNode;
import tools.jackson.databind.json.JsonMapper;

/** The main job on real input: the demo bundle in over HTTP, the job waited for, the ledger out. */
abstract class WholePathCases {

  private static final List<String> STACK =
      List.of(
          "evaporation_gal",
          "drift_gal",
          "needed_blowdown_gal",
          "excess_loss_gal",
          "fresh_loss_gal",
          "other_use_gal",
          "storage_change_gal",
          "meter_correction_gal",
          "residual_gal");

  @Autowired MockMvc mvc;
  @Autowired SignedIn signedIn;
  @Autowired JsonMapper json;

  @Test
  void takesTheDemoAndReckonsItAndASecondImportChangesNothing() throws Exception {
    JsonNode first = takeDemo();
    assertThat(first.get("files").values())
        .allSatisfy(file -> assertThat(file.get("quarantined").asInt()).isZero());
    waitFor(first.get("reconciliation").get("id").asString());
    String ledger = ledger();

    Set<String> demo = demoSystems();
    List<CSVRecord> rows =
        parsed(ledger).stream().filter(row -> demo.contains(row.get("system"))).toList();
    assertThat(rows.stream().map(row -> row.get("system")).collect(Collectors.toSet()))
        .hasSize(14)
        .isEqualTo(demo);
    assertThat(rows).hasSizeGreaterThanOrEqualTo(14 * 17);
    assertThat(rows).allSatisfy(WholePathCases::stacks);

    JsonNode second = takeDemo();
    assertThat(second.get("reconciliation").get("status").asString()).isEqualTo("done");
    assertThat(second.get("files").values())
        .allSatisfy(
            file -> assertThat(file.get("unchanged").asInt()).isEqualTo(file.get("rows").asInt()));
    assertThat(ledger()).isEqualTo(ledger);
  }

  /** The identity of the contract: the parts stack to the makeup, to rounding. */
  private static void stacks(CSVRecord row) {
    if (row.get("makeup_gal").isEmpty() || row.get("residual_gal").isEmpty()) {
      return;
    }
    double sum =
        STACK.stream()
            .map(row::get)
            .filter(cell -> !cell.isEmpty())
            .mapToDouble(Double::parseDouble)
            .sum();
    assertThat(sum)
        .as("parts of %s in %s", row.get("system"), row.get("month"))
        .isCloseTo(
            Double.parseDouble(row.get("makeup_gal")), org.assertj.core.api.Assertions.within(0.1));
  }

  private JsonNode takeDemo() throws Exception {
    String answer =
        mvc.perform(
                post("/api/v1/imports")
                    .contentType("application/zip")
                    .content(zip(Path.of("demo-data")))
                    .with(signedIn.api(signedIn.office())))
            .andExpect(status().isOk())
            .andReturn()
            .getResponse()
            .getContentAsString();
    return json.readTree(answer);
  }

  /** Other tests may share the database: theirs are not the demo's systems. */
  private static Set<String> demoSystems() throws IOException {
    Stream<String> named =
        parsed(Files.readString(Path.of("demo-data", "systems.csv"))).stream()
            .map(row -> row.get("system"));
    Stream<String> alone =
        parsed(Files.readString(Path.of("demo-data", "towers.csv"))).stream()
            .filter(row -> row.get("system").isEmpty())
            .map(row -> row.get("tower"));
    return Stream.concat(named, alone).collect(Collectors.toSet());
  }

  private static byte[] zip(Path folder) throws IOException {
    var bytes = new ByteArrayOutputStream();
    try (var zip = new ZipOutputStream(bytes);
        Stream<Path> files = Files.list(folder)) {
      for (Path file : files.filter(f -> f.toString().endsWith(".csv")).sorted().toList()) {
        zip.putNextEntry(new ZipEntry(file.getFileName().toString()));
        Files.copy(file, zip);
        zip.closeEntry();
      }
    }
    return bytes.toByteArray();
  }

  private void waitFor(String job) throws Exception {
    Instant patience = Instant.now().plus(Duration.ofMinutes(4));
    JsonNode state;
    do {
      Thread.sleep(250);
      state =
          json.readTree(
              mvc.perform(get("/api/v1/jobs/" + job).with(signedIn.api(signedIn.office())))
                  .andExpect(status().isOk())
                  .andReturn()
                  .getResponse()
                  .getContentAsString());
    } while (!List.of("done", "failed").contains(state.get("status").asString())
        && Instant.now().isBefore(patience));
    assertThat(state.get("status").asString()).as(state.toString()).isEqualTo("done");
  }

  private String ledger() throws Exception {
    return mvc.perform(
            get("/api/v1/ledger.csv?from=2025-05&to=2026-10").with(signedIn.api(signedIn.office())))
        .andExpect(status().isOk())
        .andReturn()
        .getResponse()
        .getContentAsString();
  }

  private static List<CSVRecord> parsed(String csv) throws IOException {
    return CSVFormat.RFC4180
        .builder()
        .setHeader()
        .setSkipHeaderRecord(true)
        .get()
        .parse(new StringReader(csv))
        .getRecords();
  }
}
