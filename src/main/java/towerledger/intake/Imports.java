package towerledger.intake;

import java.sql.ResultSet;
import java.sql.SQLException;
import java.time.Instant;
import java.time.OffsetDateTime;
import java.util.ArrayList;
import java.util.List;
import java.util.Locale;
import java.util.Optional;
import org.jspecify.annotations.Nullable;
import org.springframework.jdbc.core.simple.JdbcClient;
import org.springframework.stereotype.Service;
import org.springframework.transaction.annotation.Transactional;
import tools.jackson.databind.JsonNode;
import tools.jackson.databind.json.JsonMapper;

/** What was imported, while it runs and after. */
@Service
@Transactional(readOnly = true)
public class Imports {

  private static final String SELECT =
      "SELECT id, actor, origin, status, started_at, finished_at, receipt FROM intake_import ";

  private final JdbcClient jdbc;
  private final JsonMapper json;

  Imports(JdbcClient jdbc, JsonMapper json) {
    this.jdbc = jdbc;
    this.json = json;
  }

  /** How an import stands. */
  public enum Status {
    RUNNING,
    DONE,
    FAILED
  }

  /**
   * One import.
   *
   * @param id its identity
   * @param actor who handed it in
   * @param origin where it came from, such as names of files
   * @param status how it stands
   * @param startedAt when it began
   * @param files what became of its files so far
   * @param error why it failed; null when it did not
   * @param reconciliation id of the job that reckons the touched months; null until it is queued
   */
  public record Entry(
      String id,
      String actor,
      String origin,
      Status status,
      Instant startedAt,
      List<FileReceipt> files,
      @Nullable String error,
      @Nullable String reconciliation) {

    public Entry {
      files = List.copyOf(files);
    }

    /** Rows that came in, in all files. */
    public long rows() {
      return files.stream().mapToLong(FileReceipt::rows).sum();
    }

    /** Rows that wait to be mended, in all files. */
    public long quarantined() {
      return files.stream().mapToLong(FileReceipt::quarantined).sum();
    }
  }

  /** The newest imports, newest first. */
  public List<Entry> listRecent(int limit) {
    return jdbc.sql(SELECT + "ORDER BY started_at DESC FETCH FIRST " + limit + " ROWS ONLY")
        .query(this::entry)
        .list();
  }

  /** The import with an id. */
  public Optional<Entry> find(String id) {
    return jdbc.sql(SELECT + "WHERE id = ?").param(id).query(this::entry).optional();
  }

  private Entry entry(ResultSet row, int number) throws SQLException {
    String receipt = row.getString("receipt");
    JsonNode tree = json.readTree(receipt == null ? "{}" : receipt);
    List<FileReceipt> files = new ArrayList<>();
    for (JsonNode file : tree.path("files")) {
      files.add(json.treeToValue(file, FileReceipt.class));
    }
    JsonNode error = tree.get("error");
    JsonNode reconciliation = tree.path("reconciliation").get("id");
    return new Entry(
        row.getString("id"),
        row.getString("actor"),
        row.getString("origin"),
        Status.valueOf(row.getString("status").toUpperCase(Locale.ROOT)),
        row.getObject("started_at", OffsetDateTime.class).toInstant(),
        files,
        error == null ? null : error.asString(),
        reconciliation == null ? null : reconciliation.asString());
  }
}
