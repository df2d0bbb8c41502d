package towerledger.intake;

import java.time.Clock;
import java.time.OffsetDateTime;
import java.time.ZoneOffset;
import java.util.List;
import java.util.Map;
import org.springframework.jdbc.core.simple.JdbcClient;
import org.springframework.stereotype.Component;
import org.springframework.transaction.annotation.Propagation;
import org.springframework.transaction.annotation.Transactional;
import tools.jackson.databind.json.JsonMapper;

/** Keeps what each import took, while it runs and after. */
@Component
@Transactional(propagation = Propagation.REQUIRES_NEW)
class ImportRecords {

  private final JdbcClient jdbc;
  private final JsonMapper json;
  private final Clock clock;

  ImportRecords(JdbcClient jdbc, JsonMapper json, Clock clock) {
    this.jdbc = jdbc;
    this.json = json;
    this.clock = clock;
  }

  void begin(String id, ImportRequest request) {
    jdbc.sql(
            """
            INSERT INTO intake_import (id, actor, origin, status, started_at)
            VALUES (:id, :actor, :origin, 'running', :at)""")
        .param("id", id)
        .param("actor", request.actor().name())
        .param("origin", request.origin())
        .param("at", now())
        .update();
  }

  /** Imports that a killed process left behind; called while no other runs. */
  void failAbandoned() {
    jdbc.sql(
            """
            UPDATE intake_import SET status = 'failed', finished_at = :at
            WHERE status = 'running'""")
        .param("at", now())
        .update();
  }

  void progress(String id, List<FileReceipt> files) {
    jdbc.sql("UPDATE intake_import SET receipt = :receipt WHERE id = :id")
        .param("receipt", json.writeValueAsString(Map.of("files", files)))
        .param("id", id)
        .update();
  }

  void done(ImportReceipt receipt) {
    jdbc.sql(
            """
            UPDATE intake_import SET status = 'done', finished_at = :at, receipt = :receipt
            WHERE id = :id""")
        .param("at", now())
        .param("receipt", json.writeValueAsString(receipt))
        .param("id", receipt.id())
        .update();
  }

  void failed(String id, List<FileReceipt> files, String reason) {
    jdbc.sql(
            """
            UPDATE intake_import SET status = 'failed', finished_at = :at, receipt = :receipt
            WHERE id = :id""")
        .param("at", now())
        .param("receipt", json.writeValueAsString(Map.of("files", files, "error", reason)))
        .param("id", id)
        .update();
  }

  /**
   * Remembers a file's content.
   *
   * @return whether the same content came before, whole or in part
   */
  boolean remember(String importId, String file, String contentHash) {
    boolean repeated =
        jdbc.sql("SELECT COUNT(*) FROM intake_file WHERE file = :file AND content_hash = :hash")
                .param("file", file)
                .param("hash", contentHash)
                .query(Long.class)
                .single()
            > 0;
    jdbc.sql("INSERT INTO intake_file (import_id, file, content_hash) VALUES (:id, :file, :hash)")
        .param("id", importId)
        .param("file", file)
        .param("hash", contentHash)
        .update();
    return repeated;
  }

  private OffsetDateTime now() {
    return OffsetDateTime.ofInstant(clock.instant(), ZoneOffset.UTC);
  }
}
