package towerledger.backup;

import static org.assertj.core.api.Assertions.assertThat;
import static org.assertj.core.api.Assertions.assertThatThrownBy;

import java.io.IOException;
import java.nio.file.Files;
import java.nio.file.Path;
import java.sql.DriverManager;
import java.sql.SQLException;
import java.time.Clock;
import java.time.Duration;
import java.time.Instant;
import java.time.ZoneOffset;
import java.util.concurrent.atomic.AtomicBoolean;
import java.util.stream.Stream;
import java.util.zip.ZipEntry;
import java.util.zip.ZipInputStream;
import javax.sql.DataSource;
import org.flywaydb.core.Flyway;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.api.io.TempDir;
import org.springframework.jdbc.core.simple.JdbcClient;
import org.springframework.jdbc.datasource.DriverManagerDataSource;

/** A copy taken while the ledger is written to is whole, and can be put back. */
class EmbeddedBackupsTest {

  private static final Instant START = Instant.parse("2026-11-01T02:40:00Z");

  @TempDir Path folder;

  @Test
  void aCopyTakenWhileRowsArriveIsWholeWhenPutBack() throws Exception {
    DataSource source = database(folder.resolve("data"));
    Flyway.configure().dataSource(source).load().migrate();
    JdbcClient jdbc = JdbcClient.create(source);
    put(jdbc, "before");
    var stop = new AtomicBoolean();
    var writer =
        new Thread(
            () -> {
              for (int i = 0; !stop.get(); i++) {
                put(jdbc, "while-" + i);
              }
            });
    writer.start();
    Path copy;
    try {
      copy = backups(source, START, 3).take().orElseThrow();
    } finally {
      stop.set(true);
      writer.join();
    }
    put(jdbc, "after");

    DataSource restored = database(unzipped(copy, folder.resolve("restored")));
    JdbcClient there = JdbcClient.create(restored);

    assertThat(codes(there, "before")).isEqualTo(1);
    assertThat(codes(there, "after")).as("written after the copy").isZero();
    Flyway.configure().dataSource(restored).load().validate();
    put(there, "goes on");
    assertThat(codes(there, "goes on")).isEqualTo(1);
  }

  @Test
  void theOldestCopiesMakeRoom() throws Exception {
    DataSource source = database(folder.resolve("data"));
    for (int day = 0; day < 5; day++) {
      backups(source, START.plus(Duration.ofDays(day)), 3).take();
    }
    assertThat(backups(source, START, 3).list())
        .extracting(path -> path.getFileName().toString())
        .containsExactly(
            "towerledger-2026-11-05T024000Z.zip",
            "towerledger-2026-11-04T024000Z.zip",
            "towerledger-2026-11-03T024000Z.zip");
  }

  /** Each would take the room of a copy, and the disk be full sooner every day. */
  @Test
  void whatWasNotFinishedMakesRoomToo() throws Exception {
    DataSource source = database(folder.resolve("data"));
    Path copies = Files.createDirectories(folder.resolve("copies of Bob's"));
    Files.writeString(copies.resolve("towerledger-2026-10-31T024000Z.zip.part"), "killed here");
    Files.writeString(copies.resolve("notes.part"), "somebody's own");
    Files.createDirectories(copies.resolve("towerledger-2026-11-01T024000Z.zip/in the way"));

    assertThatThrownBy(() -> backups(source, START, 3).take()).isInstanceOf(IOException.class);

    try (Stream<Path> left = Files.list(copies)) {
      assertThat(left.map(path -> path.getFileName().toString()))
          .containsExactlyInAnyOrder("notes.part", "towerledger-2026-11-01T024000Z.zip");
    }
  }

  @Test
  void aDatabaseThatIsNoFileIsLeftToItsOwnTools() throws Exception {
    var memory = new DriverManagerDataSource("jdbc:h2:mem:backup", "sa", "");
    assertThat(backups(memory, START, 3).take()).isEmpty();
  }

  @Test
  void refusesToKeepNothing() throws SQLException {
    DataSource source = database(folder.resolve("data"));
    assertThatThrownBy(() -> backups(source, START, 0)).hasMessageContaining("keep at least 1");
  }

  private EmbeddedBackups backups(DataSource source, Instant now, int keep) {
    return new EmbeddedBackups(
        source, Clock.fixed(now, ZoneOffset.UTC), folder.resolve("copies of Bob's"), keep);
  }

  private static DataSource database(Path at) throws SQLException {
    var source =
        new DriverManagerDataSource(
            "jdbc:h2:file:"
                + at.resolve("towerledger").toAbsolutePath()
                + ";WRITE_DELAY=0;DB_CLOSE_DELAY=-1;CASE_INSENSITIVE_IDENTIFIERS=TRUE",
            "sa",
            "");
    DriverManager.getConnection(source.getUrl(), "sa", "").close();
    return source;
  }

  private static Path unzipped(Path zip, Path to) throws IOException {
    Files.createDirectories(to);
    try (var in = new ZipInputStream(Files.newInputStream(zip))) {
      for (ZipEntry entry = in.getNextEntry(); entry != null; entry = in.getNextEntry()) {
        Files.copy(in, to.resolve(entry.getName()));
      }
    }
    return to;
  }

  private static void put(JdbcClient jdbc, String code) {
    jdbc.sql(
            """
            INSERT INTO account_customer (code, name, created_at)
            VALUES (:code, 'A customer', CURRENT_TIMESTAMP)""")
        .param("code", code.replace(' ', '-'))
        .update();
  }

  private static int codes(JdbcClient jdbc, String code) {
    return jdbc.sql("SELECT COUNT(*) FROM account_customer WHERE code = ?")
        .param(code.replace(' ', '-'))
        .query(Integer.class)
        .single();
  }
}
