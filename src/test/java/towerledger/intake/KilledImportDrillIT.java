package towerledger.intake;

import static org.assertj.core.api.Assertions.assertThat;

import java.io.IOException;
import java.nio.file.Files;
import java.nio.file.Path;
import java.sql.DriverManager;
import java.util.ArrayList;
import java.util.List;
import java.util.Map;
import java.util.Random;
import java.util.TreeMap;
import java.util.concurrent.ExecutorService;
import java.util.concurrent.Executors;
import java.util.concurrent.Future;
import java.util.stream.Stream;
import org.junit.jupiter.api.Tag;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.api.io.TempDir;
import towerledger.Postgres;

/**
 * Kills the program (SIGKILL) at random moments of an import and starts it again with the same
 * import: whenever one comes to its end, the data are exactly those of an import that nobody
 * disturbed. At least twenty kills on each database.
 */
@Tag("drill")
class KilledImportDrillIT {

  private static final int KILLS = Integer.getInteger("drill.kills", 20);

  /** After so many kills an import is left to come to its end, however slow the machine is. */
  private static final int MOST_IN_A_ROUND = 4;

  /** So many lines of a file are enough for many batches; each import is made anew for a kill. */
  private static final int MOST_LINES = 12_000;

  private static final long SEED = 4711;

  private static final List<String> MORE_TABLES =
      List.of(
          "SELECT m.code, c.read_at, c.register, c.kind FROM meter_register_correction c"
              + " JOIN site_meter m ON m.id = c.meter_id",
          "SELECT m.code, c.start_at, c.minutes, c.volume_l FROM meter_interval_correction c"
              + " JOIN site_meter m ON m.id = c.meter_id",
          "SELECT y.code, c.log_kind, c.at, c.old_json FROM logsheet_correction c"
              + " JOIN site_system y ON y.id = c.system_id",
          "SELECT file, line, header, raw, reason, status FROM intake_quarantine",
          // a kill just after the last word of an import leaves its job to the next process, which
          // reckons at once: so what is to be reckoned counts as much as what has been
          "SELECT y.code FROM site_system y WHERE y.id IN (SELECT system_id FROM ledger_stale)"
              + " OR y.id IN (SELECT system_id FROM ledger_revision)");

  @TempDir Path folder;

  /** Both databases at once: most of the time a process starts, on one core. */
  @Test
  void endsInTheSameDataWheneverItIsKilled() throws Exception {
    Path bundle = bundle();
    ExecutorService both = Executors.newFixedThreadPool(2);
    try {
      List<Future<?>> drills = new ArrayList<>();
      for (String database : List.of("h2", "postgresql")) {
        drills.add(
            both.submit(
                () -> {
                  killAndCompare(database, bundle);
                  return null;
                }));
      }
      for (Future<?> drill : drills) {
        drill.get();
      }
    } finally {
      both.shutdownNow();
    }
  }

  private void killAndCompare(String database, Path bundle) throws Exception {
    String undisturbed = newDatabase(database, "undisturbed");
    long duration;
    try (var process = LedgerProcess.startForAShortLife(undisturbed, bundle.toString())) {
      process.awaitImportBegun();
      long begun = System.nanoTime();
      process.awaitImportDone();
      duration = (System.nanoTime() - begun) / 1_000_000;
    }
    var expected = dump(undisturbed);
    assertThat(expected.values().stream().mapToInt(List::size).sum()).isGreaterThan(20_000);

    var random = new Random(SEED);
    int kills = 0;
    int completed = 0;
    for (int round = 0; kills < KILLS; round++) {
      String url = newDatabase(database, "round" + round);
      boolean done = false;
      for (int inRound = 0; !done; inRound++) {
        try (var process = LedgerProcess.startForAShortLife(url, bundle.toString())) {
          process.awaitImportBegun();
          if (inRound == MOST_IN_A_ROUND) {
            process.awaitImportDone();
            done = true;
          } else if (kills == 0) {
            process.awaitImportDone(); // the first kill comes after the end
          } else {
            done = process.importEndedWithin((long) (random.nextDouble() * duration));
          }
          if (!done) {
            process.kill();
            kills++;
          }
        }
      }
      completed++;
      assertThat(differences(expected, dump(url)))
          .as("seed %d, %s, after %d kills", SEED, database, kills)
          .isEmpty();
    }
    System.out.printf(
        "%s: %d kills within imports of %d ms, %d imports completed, all the same%n",
        database, kills, duration, completed);
  }

  private Path bundle() throws IOException {
    Path bundle = Files.createDirectory(folder.resolve("bundle"));
    try (Stream<Path> files = Files.list(Path.of("demo-data"))) {
      for (Path file : files.toList()) {
        List<String> lines = Files.readAllLines(file);
        Files.write(
            bundle.resolve(file.getFileName()),
            lines.subList(0, Math.min(lines.size(), MOST_LINES)));
      }
    }
    Path readings = bundle.resolve("register_readings.csv");
    var lines = new ArrayList<>(Files.readAllLines(readings));
    String second = lines.get(2);
    // a correction inside the file, and rows that cannot be taken
    lines.add(second.replaceAll("^([^,]*,[^,]*),[^,]*", "$1,123456"));
    lines.add("NO-SUCH-METER,2025-07-01,5,,");
    lines.add(second.replaceAll("^([^,]*),[^,]*", "$1,2025-02-30"));
    Files.write(readings, lines);
    return bundle;
  }

  private String newDatabase(String database, String name) {
    return database.equals("h2")
        ? "jdbc:h2:file:"
            + folder.resolve(name).resolve("ledger")
            + ";WRITE_DELAY=0;DB_CLOSE_ON_EXIT=FALSE;CASE_INSENSITIVE_IDENTIFIERS=TRUE"
        : Postgres.newDatabase("killed_" + name);
  }

  /** Every fact, setting, correction and quarantined row, without keys and times of arrival. */
  private static TreeMap<String, List<String>> dump(String url) throws Exception {
    var dump = new TreeMap<String, List<String>>();
    try (var connection = DriverManager.getConnection(url, user(url), "")) {
      var queries = new TreeMap<String, String>();
      for (ExportFile file : ExportFiles.ALL) {
        if (!file.name().equals("ledger_revisions")) { // reckoned, and with the time of writing
          queries.put(file.name(), file.sql());
        }
      }
      for (int i = 0; i < MORE_TABLES.size(); i++) {
        queries.put("more" + i, MORE_TABLES.get(i));
      }
      for (var query : queries.entrySet()) {
        var rows = new ArrayList<String>();
        try (var statement = connection.createStatement();
            var result = statement.executeQuery(query.getValue())) {
          int columns = result.getMetaData().getColumnCount();
          while (result.next()) {
            var row = new StringBuilder();
            for (int i = 1; i <= columns; i++) {
              row.append(result.getString(i)).append('|');
            }
            rows.add(row.toString());
          }
        }
        rows.sort(null);
        dump.put(query.getKey(), rows);
      }
    }
    return dump;
  }

  /** The rows that only one of two dumps has, by table: few enough to read. */
  private static List<String> differences(
      Map<String, List<String>> expected, Map<String, List<String>> actual) {
    var differences = new ArrayList<String>();
    for (var table : expected.entrySet()) {
      var missing = new ArrayList<>(table.getValue());
      var added = new ArrayList<>(actual.get(table.getKey()));
      table.getValue().forEach(added::remove);
      actual.get(table.getKey()).forEach(missing::remove);
      if (!missing.isEmpty() || !added.isEmpty()) {
        differences.add(
            "%s: %d of %d rows missing %s, %d added %s"
                .formatted(
                    table.getKey(),
                    missing.size(),
                    table.getValue().size(),
                    missing.stream().limit(10).toList(),
                    added.size(),
                    added.stream().limit(10).toList()));
      }
    }
    return differences;
  }

  private static String user(String url) {
    return url.startsWith("jdbc:h2") ? "" : "postgres";
  }
}
