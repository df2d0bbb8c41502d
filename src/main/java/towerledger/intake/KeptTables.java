package towerledger.intake;

import java.io.IOException;
import java.nio.file.Files;
import java.nio.file.Path;
import java.time.Clock;
import java.time.Duration;
import java.time.Instant;
import java.time.OffsetDateTime;
import java.time.ZoneOffset;
import java.util.Optional;
import java.util.UUID;
import org.springframework.jdbc.core.simple.JdbcClient;
import org.springframework.stereotype.Service;
import org.springframework.transaction.annotation.Transactional;
import towerledger.account.Actor;
import towerledger.intake.UploadRefused.Kind;

/** Tables of others that wait, a day at most, until somebody has looked over their mapping. */
@Service
public class KeptTables {

  private static final long LARGEST_BYTES = 32L * 1024 * 1024;
  private static final Duration KEPT = Duration.ofDays(1);
  private static final int LONGEST_NAME = 200;

  private final JdbcClient jdbc;
  private final Clock clock;

  KeptTables(JdbcClient jdbc, Clock clock) {
    this.jdbc = jdbc;
    this.clock = clock;
  }

  /**
   * A table that waits.
   *
   * @param id its key
   * @param name its name as handed in
   * @param file the interchange file it is to become, without {@code .csv}
   * @param sender who sends such tables; empty when it does not matter
   */
  public record Kept(String id, String name, String file, String sender) {}

  /**
   * Keeps a table.
   *
   * @throws UploadRefused when it is empty or larger than pages take
   */
  @Transactional
  public Kept keep(Actor actor, Path table, String name, String file, String sender)
      throws IOException {
    long bytes = Files.size(table);
    if (bytes == 0) {
      throw new UploadRefused(
          Kind.UNREADABLE, "the table is empty; save the sheet as CSV and choose that file");
    }
    if (bytes > LARGEST_BYTES) {
      throw new UploadRefused(
          Kind.TOO_LARGE,
          "the table has %d MB, this page takes up to %d MB; send it to /api/v1/foreign-tables, or cut it in parts"
              .formatted(bytes >> 20, LARGEST_BYTES >> 20));
    }
    Instant now = clock.instant();
    jdbc.sql("DELETE FROM intake_table WHERE created_at < ?").param(at(now.minus(KEPT))).update();
    var kept =
        new Kept(
            UUID.randomUUID().toString(),
            name.length() > LONGEST_NAME ? name.substring(0, LONGEST_NAME) : name,
            file,
            sender);
    jdbc.sql(
            """
            INSERT INTO intake_table (id, actor, name, file, sender, content, created_at)
            VALUES (?, ?, ?, ?, ?, ?, ?)""")
        .params(
            kept.id(), actor.name(), kept.name(), file, sender, Files.readAllBytes(table), at(now))
        .update();
    return kept;
  }

  /** A table that waits; empty once it was taken or its day is over. */
  @Transactional(readOnly = true)
  public Optional<Kept> find(String id) {
    return jdbc.sql("SELECT id, name, file, sender FROM intake_table WHERE id = ?")
        .param(id)
        .query(
            (row, number) ->
                new Kept(row.getString(1), row.getString(2), row.getString(3), row.getString(4)))
        .optional();
  }

  /** Lays its bytes down in a folder. */
  @Transactional(readOnly = true)
  public Path layDown(Kept table, UploadFolder folder) throws IOException {
    byte[] content =
        jdbc.sql("SELECT content FROM intake_table WHERE id = ?")
            .param(table.id())
            .query((row, number) -> row.getBytes(1))
            .single();
    return Files.write(folder.path().resolve("table"), content);
  }

  /** Forgets a table. */
  @Transactional
  public void remove(Kept table) {
    jdbc.sql("DELETE FROM intake_table WHERE id = ?").param(table.id()).update();
  }

  private static OffsetDateTime at(Instant instant) {
    return OffsetDateTime.ofInstant(instant, ZoneOffset.UTC);
  }
}
