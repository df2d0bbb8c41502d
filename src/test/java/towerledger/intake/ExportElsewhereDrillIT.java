package towerledger.intake;

import static org.assertj.core.api.Assertions.assertThat;

import java.net.URI;
import java.net.http.HttpClient;
import java.net.http.HttpRequest;
import java.net.http.HttpResponse;
import java.nio.charset.StandardCharsets;
import java.nio.file.Files;
import java.nio.file.Path;
import java.time.Duration;
import java.time.Instant;
import java.util.ArrayList;
import java.util.Base64;
import java.util.Comparator;
import java.util.HashMap;
import java.util.List;
import java.util.Map;
import org.junit.jupiter.api.Tag;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.api.io.TempDir;
import tools.jackson.databind.JsonNode;
import tools.jackson.databind.json.JsonMapper;
import tools.jackson.databind.node.ObjectNode;
import towerledger.Postgres;

/**
 * The whole ledger, with closed months, one restated by a late correction and rows in quarantine,
 * moved from H2 to PostgreSQL and back: the same facts, the same months, the same revisions, figure
 * by figure, and a reckoning of all of it elsewhere changes nothing.
 */
@Tag("drill")
class ExportElsewhereDrillIT {

  private static final Duration PATIENCE = Duration.ofMinutes(10);
  private static final String LEDGER = "/api/v1/ledger.csv?from=2000-01&to=2099-12";

  @TempDir Path folder;

  private final HttpClient http = HttpClient.newHttpClient();
  private final Map<String, String> tokens = new HashMap<>();

  @Test
  void movesToAnotherDatabaseAndBackFigureByFigure() throws Exception {
    List<String> ledger;
    List<JsonNode> findings;
    byte[] export;
    try (var home = LedgerProcess.startAtWork(h2("home"), "demo-data")) {
      home.awaitImportDone();
      reckonAll(home);
      correctALateReading(home);
      ledger = lines(get(home, LEDGER));
      findings = findings(home);
      export = get(home, "/api/v1/export.zip");
    }
    assertThat(ledger).hasSizeGreaterThan(200).anyMatch(line -> line.contains(",restated,"));
    assertThat(findings)
        .anyMatch(finding -> finding.get("status").asString().equals("verified"))
        .anyMatch(finding -> finding.get("status").asString().equals("open"));

    byte[] there = moved(Postgres.newDatabase("elsewhere"), export, ledger, findings);
    byte[] back = moved(h2("back"), there, ledger, findings);

    assertSame(back, export);
  }

  /** What an installation exports that began with an export; it must say the same in all. */
  private byte[] moved(String database, byte[] export, List<String> ledger, List<JsonNode> findings)
      throws Exception {
    Path bundle = folder.resolve("export.zip");
    Files.write(bundle, export);
    try (var process = LedgerProcess.startAtWork(database, bundle.toString())) {
      process.awaitImportDone();
      reckonAll(process);

      assertThat(lines(get(process, LEDGER))).isEqualTo(ledger);
      assertThat(findings(process)).isEqualTo(findings);
      byte[] after = get(process, "/api/v1/export.zip");
      assertSame(after, export);
      return after;
    }
  }

  /** What the ledger itself follows up: repairs that are logged and what they saved. */
  private List<JsonNode> findings(LedgerProcess process) throws Exception {
    List<JsonNode> findings = new ArrayList<>();
    for (JsonNode finding : JsonMapper.shared().readTree(get(process, "/api/v1/findings"))) {
      findings.add(((ObjectNode) finding).without(List.of("id", "opened_at")));
    }
    findings.sort(Comparator.comparing(JsonNode::toString));
    return findings;
  }

  private static void assertSame(byte[] after, byte[] before) throws Exception {
    var one = ExportCases.files(before);
    var two = ExportCases.files(after);
    assertThat(two.keySet()).isEqualTo(one.keySet()).contains("ledger_revisions.csv");
    for (var file : one.entrySet()) {
      assertThat(sorted(two.getOrDefault(file.getKey(), "")))
          .as(file.getKey())
          .isEqualTo(sorted(file.getValue()));
    }
  }

  private static List<String> sorted(String text) {
    return text.lines().sorted().toList();
  }

  private static List<String> lines(byte[] text) {
    return new String(text, StandardCharsets.UTF_8).lines().toList();
  }

  private String h2(String name) {
    return "jdbc:h2:file:"
        + folder.resolve(name)
        + ";WRITE_DELAY=0;DB_CLOSE_ON_EXIT=FALSE;CASE_INSENSITIVE_IDENTIFIERS=TRUE";
  }

  /** Long after its month closed a reading is corrected; others of the file cannot be taken. */
  private void correctALateReading(LedgerProcess process) throws Exception {
    String[] cells =
        Files.readAllLines(Path.of("demo-data/register_readings.csv")).stream()
            .filter(line -> line.startsWith("ALD-HIGH-MU,2025-07-"))
            .skip(1)
            .findFirst()
            .orElseThrow()
            .split(",");
    String csv =
        "meter,read_at,register\n%s,%s,%d\nNO-SUCH-METER,2025-07-01,5\n"
            .formatted(cells[0], cells[1], Long.parseLong(cells[2]) + 500);
    JsonNode receipt = post(process, "/api/v1/imports?file=register_readings", "text/csv", csv);
    assertThat(receipt.at("/files/0/changed").asInt()).isEqualTo(1);
    assertThat(receipt.at("/files/0/quarantined").asInt()).isEqualTo(1);
    awaitJob(process, receipt.at("/reconciliation/id").asString());
  }

  private void reckonAll(LedgerProcess process) throws Exception {
    JsonNode ordered =
        post(process, "/api/v1/reconciliations", "application/json", "{\"systems\":[]}");
    awaitJob(process, ordered.get("id").asString());
  }

  private void awaitJob(LedgerProcess process, String id) throws Exception {
    Instant end = Instant.now().plus(PATIENCE);
    while (Instant.now().isBefore(end)) {
      JsonNode job = JsonMapper.shared().readTree(get(process, "/api/v1/jobs/" + id));
      String status = job.get("status").asString();
      if (status.equals("done")) {
        return;
      }
      assertThat(status).as("%s", job).isNotEqualTo("failed");
      Thread.sleep(500);
    }
    throw new IllegalStateException("the ledger did not come to rest:\n" + process.output());
  }

  private JsonNode post(LedgerProcess process, String path, String type, String body)
      throws Exception {
    var response =
        http.send(
            authorised(process, path)
                .header("Content-Type", type)
                .POST(HttpRequest.BodyPublishers.ofString(body))
                .build(),
            HttpResponse.BodyHandlers.ofString());
    assertThat(response.statusCode()).as(response.body()).isBetween(200, 202);
    return JsonMapper.shared().readTree(response.body());
  }

  private byte[] get(LedgerProcess process, String path) throws Exception {
    var response =
        http.send(authorised(process, path).build(), HttpResponse.BodyHandlers.ofByteArray());
    assertThat(response.statusCode()).isEqualTo(200);
    return response.body();
  }

  private HttpRequest.Builder authorised(LedgerProcess process, String path) throws Exception {
    String base = "http://localhost:" + process.awaitPort();
    String token = tokens.get(base);
    if (token == null) {
      token = token(base);
      tokens.put(base, token);
    }
    return HttpRequest.newBuilder(URI.create(base + path))
        .header("Authorization", "Bearer " + token);
  }

  private String token(String base) throws Exception {
    String basic =
        Base64.getEncoder()
            .encodeToString(
                (LedgerProcess.ADMIN + ":" + LedgerProcess.PASSWORD)
                    .getBytes(StandardCharsets.UTF_8));
    var response =
        http.send(
            HttpRequest.newBuilder(URI.create(base + "/api/v1/tokens"))
                .header("Authorization", "Basic " + basic)
                .header("Content-Type", "application/json")
                .POST(HttpRequest.BodyPublishers.ofString("{\"name\":\"drill\"}"))
                .build(),
            HttpResponse.BodyHandlers.ofString());
    return JsonMapper.shared().readTree(response.body()).get("token").asString();
  }
}
