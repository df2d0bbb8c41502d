package towerledger.intake;

import static org.assertj.core.api.Assertions.assertThat;

import java.io.BufferedWriter;
import java.io.IOException;
import java.net.URI;
import java.net.http.HttpClient;
import java.net.http.HttpRequest;
import java.net.http.HttpResponse;
import java.nio.charset.StandardCharsets;
import java.nio.file.Files;
import java.nio.file.Path;
import java.sql.Connection;
import java.sql.DriverManager;
import java.time.Instant;
import java.util.Base64;
import java.util.concurrent.TimeUnit;
import java.util.stream.Stream;
import org.junit.jupiter.api.Tag;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.api.io.TempDir;
import org.postgresql.PGConnection;
import tools.jackson.databind.JsonNode;
import tools.jackson.databind.json.JsonMapper;
import towerledger.Postgres;

/**
 * How fast interval rows come in by HTTP, as a ratio to the database's own way of loading the same
 * rows into the same table in the same run: {@code psql \copy} for PostgreSQL, {@code CSVREAD} for
 * H2. A million rows with a heap of 256 MB; {@code -Ddrill.rows=10000000} takes another number. The
 * figures are printed and belong into docs/performance.md; how many rows arrive is checked, how
 * fast is not. Where psql is not installed, the same COPY is sent by the driver.
 */
@Tag("speed")
class ImportSpeedIT {

  private static final int METERS = 100;
  private static final long ROWS = Long.getLong("drill.rows", 1_000_000L);
  private static final Instant START = Instant.parse("2022-01-01T00:00:00Z");

  @TempDir Path folder;

  private final HttpClient http = HttpClient.newHttpClient();

  @Test
  void intoPostgresBesideCopy() throws Exception {
    String url = Postgres.newDatabase("speed");
    try (var process = LedgerProcess.start(url, "", "256m")) {
      double bySystem = importSeconds(process);
      try (var connection = DriverManager.getConnection(url)) {
        assertThat(count(connection)).isEqualTo(ROWS);
        writeTableFile(connection);
        execute(connection, "CREATE TABLE copy_target (LIKE meter_interval_volume INCLUDING ALL)");
        double byCopy = psql(url);
        tell("PostgreSQL, psql \\copy", bySystem, byCopy, process);
      }
    }
  }

  @Test
  void intoH2BesideCsvRead() throws Exception {
    String url =
        "jdbc:h2:file:"
            + folder.resolve("speed")
            + ";WRITE_DELAY=0;DB_CLOSE_ON_EXIT=FALSE;CASE_INSENSITIVE_IDENTIFIERS=TRUE";
    double bySystem;
    try (var process = LedgerProcess.start(url, "", "256m")) {
      bySystem = importSeconds(process);
      System.out.println("peak memory of the process: " + peak(process));
    }
    try (var connection = DriverManager.getConnection(url, "", "")) {
      assertThat(count(connection)).isEqualTo(ROWS);
      Path file = writeTableFile(connection);
      execute(
          connection,
          """
          CREATE TABLE copy_target (customer_id BIGINT NOT NULL, meter_id BIGINT NOT NULL,
            start_at TIMESTAMP WITH TIME ZONE NOT NULL, minutes INTEGER NOT NULL,
            volume_l DOUBLE PRECISION NOT NULL, PRIMARY KEY (meter_id, start_at),
            CHECK (minutes BETWEEN 1 AND 46080), CHECK (volume_l >= 0))""");
      long begun = System.nanoTime();
      execute(
          connection,
          "INSERT INTO copy_target SELECT * FROM CSVREAD('" + file + "', NULL, 'charset=UTF-8')");
      double byRead = (System.nanoTime() - begun) / 1e9;
      System.out.printf(
          "H2, CSVREAD: %d rows, by HTTP %.1f s, by the database itself %.1f s, ratio of rates"
              + " %.2f%n",
          ROWS, bySystem, byRead, byRead / bySystem);
    }
  }

  private static void tell(String what, double bySystem, double byDatabase, LedgerProcess process)
      throws IOException {
    System.out.printf(
        "%s: %d rows, by HTTP %.1f s, by the database itself %.1f s, ratio of rates %.2f; peak"
            + " memory of the process: %s%n",
        what, ROWS, bySystem, byDatabase, byDatabase / bySystem, peak(process));
  }

  private static String peak(LedgerProcess process) throws IOException {
    return Files.readAllLines(Path.of("/proc/" + process.pid() + "/status")).stream()
        .filter(line -> line.startsWith("VmHWM"))
        .findFirst()
        .orElse("not known");
  }

  private double importSeconds(LedgerProcess process) throws Exception {
    String base = "http://localhost:" + process.awaitPort() + "/api/v1";
    String token = token(base);
    Path book = folder.resolve("book.zip");
    var meters = new StringBuilder("meter,system,role,unit\n");
    for (int i = 0; i < METERS; i++) {
      meters.append(meter(i)).append(",SPD-T,makeup,gal\n");
    }
    Files.write(
        book,
        Uploads.zip(
            "customers.csv", "customer,name\nSPD,Customer\n",
            "sites.csv", "site,customer,name,time_zone\nSPD-S,SPD,Site,America/Chicago\n",
            "towers.csv", "tower,site,name,nominal_tons\nSPD-T,SPD-S,Tower,300\n",
            "meters.csv", meters.toString()));
    post(base + "/imports", token, "application/zip", book);
    Path rows = folder.resolve("interval_volumes.csv");
    try (BufferedWriter out = Files.newBufferedWriter(rows, StandardCharsets.UTF_8)) {
      out.write("meter,start,minutes,volume_gal\n");
      for (long i = 0; i < ROWS; i++) {
        out.write(meter((int) (i % METERS)));
        out.write(',');
        out.write(START.plusSeconds(900 * (i / METERS)).toString());
        out.write(",15,");
        out.write(Double.toString((i * 37 % 5000) / 10.0));
        out.write('\n');
      }
    }
    long begun = System.nanoTime();
    JsonNode answer = post(base + "/imports?file=interval_volumes", token, "text/csv", rows);
    double seconds = (System.nanoTime() - begun) / 1e9;
    assertThat(answer.get("files").get(0).get("added").asLong()).isEqualTo(ROWS);
    Files.delete(rows);
    return seconds;
  }

  private static String meter(int i) {
    return "SPD-M%03d".formatted(i);
  }

  private String token(String base) throws Exception {
    String basic =
        Base64.getEncoder()
            .encodeToString((LedgerProcess.ADMIN + ":" + LedgerProcess.PASSWORD).getBytes("UTF-8"));
    HttpResponse<String> response;
    int tries = 0;
    do {
      // the port opens a moment before the first account is made
      Thread.sleep(500);
      response =
          http.send(
              HttpRequest.newBuilder(URI.create(base + "/tokens"))
                  .header("Authorization", "Basic " + basic)
                  .header("Content-Type", "application/json")
                  .POST(HttpRequest.BodyPublishers.ofString("{\"name\":\"drill\"}"))
                  .build(),
              HttpResponse.BodyHandlers.ofString());
    } while (response.statusCode() == 401 && ++tries < 60);
    return JsonMapper.shared().readTree(response.body()).get("token").asString();
  }

  private JsonNode post(String uri, String token, String type, Path body) throws Exception {
    var response =
        http.send(
            HttpRequest.newBuilder(URI.create(uri))
                .header("Authorization", "Bearer " + token)
                .header("Content-Type", type)
                .POST(HttpRequest.BodyPublishers.ofFile(body))
                .build(),
            HttpResponse.BodyHandlers.ofString());
    assertThat(response.statusCode()).as(response.body()).isEqualTo(200);
    return JsonMapper.shared().readTree(response.body());
  }

  /** The stored rows as a file in the table's own shape, in the order in which they came. */
  private Path writeTableFile(Connection connection) throws Exception {
    Path file = folder.resolve("table.csv");
    long customer = number(connection, "SELECT id FROM account_customer WHERE code = 'SPD'");
    long[] ids = new long[METERS];
    for (int i = 0; i < METERS; i++) {
      ids[i] = number(connection, "SELECT id FROM site_meter WHERE code = '" + meter(i) + "'");
    }
    try (BufferedWriter out = Files.newBufferedWriter(file, StandardCharsets.UTF_8)) {
      out.write("CUSTOMER_ID,METER_ID,START_AT,MINUTES,VOLUME_L\n");
      for (long i = 0; i < ROWS; i++) {
        out.write(
            customer
                + ","
                + ids[(int) (i % METERS)]
                + ","
                + START.plusSeconds(900 * (i / METERS))
                + ",15,"
                + (i * 37 % 5000) / 10.0 * 3.785411784
                + "\n");
      }
    }
    return file;
  }

  private double psql(String url) throws Exception {
    if (!isInstalled("psql")) {
      return copy(url);
    }
    String address = url.replace("jdbc:", "").replaceAll("\\?.*", "");
    long begun = System.nanoTime();
    Process psql =
        new ProcessBuilder(
                "psql",
                address,
                "-U",
                "postgres",
                "-c",
                "\\copy copy_target FROM '"
                    + folder.resolve("table.csv")
                    + "' WITH (FORMAT csv, HEADER)")
            .redirectErrorStream(true)
            .start();
    String said = new String(psql.getInputStream().readAllBytes(), StandardCharsets.UTF_8);
    assertThat(psql.waitFor(1, TimeUnit.HOURS) && psql.exitValue() == 0).as(said).isTrue();
    return (System.nanoTime() - begun) / 1e9;
  }

  private double copy(String url) throws Exception {
    try (var connection = DriverManager.getConnection(url);
        var in = Files.newInputStream(folder.resolve("table.csv"))) {
      long begun = System.nanoTime();
      connection
          .unwrap(PGConnection.class)
          .getCopyAPI()
          .copyIn("COPY copy_target FROM STDIN WITH (FORMAT csv, HEADER)", in);
      return (System.nanoTime() - begun) / 1e9;
    }
  }

  private static boolean isInstalled(String program) {
    return Stream.of(System.getenv("PATH").split(java.io.File.pathSeparator))
        .anyMatch(path -> Files.isExecutable(Path.of(path, program)));
  }

  private static long count(Connection connection) throws Exception {
    return number(connection, "SELECT COUNT(*) FROM meter_interval_volume");
  }

  private static long number(Connection connection, String sql) throws Exception {
    try (var statement = connection.createStatement();
        var result = statement.executeQuery(sql)) {
      result.next();
      return result.getLong(1);
    }
  }

  private static void execute(Connection connection, String sql) throws Exception {
    try (var statement = connection.createStatement()) {
      statement.execute(sql);
    }
  }
}
