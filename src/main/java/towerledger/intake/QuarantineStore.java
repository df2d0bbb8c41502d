package towerledger.intake;

import java.time.Clock;
import java.time.OffsetDateTime;
import java.time.ZoneOffset;
import java.util.Collection;
import java.util.HashMap;
import java.util.List;
import java.util.Map;
import org.jspecify.annotations.Nullable;
import org.springframework.jdbc.core.simple.JdbcClient;
import org.springframework.stereotype.Component;
import org.springframework.transaction.annotation.Transactional;

/**
 * Rows that wait to be mended. A row that comes again while it waits is not kept twice; one that
 * was mended or dropped does not come back.
 */
@Component
class QuarantineStore {

  private final JdbcClient jdbc;
  private final Clock clock;

  QuarantineStore(JdbcClient jdbc, Clock clock) {
    this.jdbc = jdbc;
    this.clock = clock;
  }

  /** Where the rows of one file of one import go. */
  record Shelf(String importId, String file, String header, @Nullable Long customerId) {}

  /**
   * Keeps a row, unless it was settled before.
   *
   * @return whether it waits now; false if somebody mended or dropped the same row before
   */
  private boolean hold(Shelf shelf, Quarantined row, String hash, boolean mayBeThere) {
    if (mayBeThere) {
      int adopted =
          jdbc.sql(
                  """
                  UPDATE intake_quarantine SET import_id = :import, line = :line, reason = :reason
                  WHERE id = (SELECT MIN(id) FROM intake_quarantine
                              WHERE file = :file AND raw_hash = :hash AND status = 'waiting'
                                AND import_id <> :import)""")
              .param("import", shelf.importId)
              .param("line", row.line())
              .param("reason", row.reason())
              .param("file", shelf.file)
              .param("hash", hash)
              .update();
      if (adopted > 0) {
        return true;
      }
      if (isSettled(shelf, hash)) {
        return false;
      }
    }
    jdbc.sql(
            """
            INSERT INTO intake_quarantine
              (import_id, file, line, header, raw, raw_hash, reason, customer_id, created_at)
            VALUES (:import, :file, :line, :header, :raw, :hash, :reason, :customer, :at)""")
        .param("import", shelf.importId)
        .param("file", shelf.file)
        .param("line", row.line())
        .param("header", shelf.header)
        .param("raw", row.raw())
        .param("hash", hash)
        .param("reason", row.reason())
        .param("customer", shelf.customerId)
        .param("at", now())
        .update();
    return true;
  }

  private boolean isSettled(Shelf shelf, String hash) {
    return jdbc.sql(
                """
                SELECT COUNT(*) FROM intake_quarantine
                WHERE file = :file AND raw_hash = :hash AND status <> 'waiting'""")
            .param("file", shelf.file)
            .param("hash", hash)
            .query(Long.class)
            .single()
        > 0;
  }

  /**
   * Keeps rows together.
   *
   * @return for each, whether it waits; false if the same row was mended or dropped before
   */
  @Transactional
  public List<Boolean> hold(
      Shelf shelf, List<Quarantined> rows, RowHash hashes, boolean fileIsKnown) {
    return rows.stream().map(row -> hold(shelf, row, hashes.of(row.raw()), fileIsKnown)).toList();
  }

  /** Whether any row of the file was ever quarantined. */
  boolean knows(String file) {
    return !jdbc.sql("SELECT id FROM intake_quarantine WHERE file = ? FETCH FIRST 1 ROW ONLY")
        .param(file)
        .query(Long.class)
        .list()
        .isEmpty();
  }

  /** Rows of the file that wait, as digests and keys; at most so many. */
  Map<String, Long> waiting(String file, int most) {
    var waiting = new HashMap<String, Long>();
    jdbc.sql(
            "SELECT id, raw_hash FROM intake_quarantine WHERE file = ? AND status = 'waiting'"
                + " ORDER BY id DESC FETCH FIRST "
                + most
                + " ROWS ONLY")
        .param(file)
        .query(
            row -> {
              waiting.put(row.getString("raw_hash"), row.getLong("id"));
            });
    return waiting;
  }

  /** Waiting rows that could be taken when they came again. */
  @Transactional
  public void settle(Collection<Long> ids, String by) {
    for (long id : ids) {
      jdbc.sql(
              """
              UPDATE intake_quarantine SET status = 'mended', settled_at = :at, settled_by = :by
              WHERE id = :id AND status = 'waiting'""")
          .param("at", now())
          .param("by", by)
          .param("id", id)
          .update();
    }
  }

  private OffsetDateTime now() {
    return OffsetDateTime.ofInstant(clock.instant(), ZoneOffset.UTC);
  }
}
