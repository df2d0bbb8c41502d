package towerledger.intake;

import java.time.Clock;
import java.time.OffsetDateTime;
import java.time.ZoneOffset;
import java.util.ArrayDeque;
import java.util.ArrayList;
import java.util.Collection;
import java.util.Deque;
import java.util.HashMap;
import java.util.HashSet;
import java.util.List;
import java.util.Map;
import java.util.Set;
import org.jspecify.annotations.Nullable;
import org.springframework.jdbc.core.JdbcTemplate;
import org.springframework.jdbc.core.simple.JdbcClient;
import org.springframework.stereotype.Component;
import org.springframework.transaction.annotation.Transactional;

/**
 * Rows that wait to be mended. A row that comes again while it waits is not kept twice; one that
 * was mended or dropped does not come back.
 */
@Component
class QuarantineStore {

  private static final int DIGESTS_A_QUERY = 500;

  private final JdbcClient jdbc;
  private final JdbcTemplate batch;
  private final Clock clock;

  QuarantineStore(JdbcClient jdbc, JdbcTemplate batch, Clock clock) {
    this.jdbc = jdbc;
    this.batch = batch;
    this.clock = clock;
  }

  /** Where the rows of one file of one import go. */
  record Shelf(String importId, String file, String header, @Nullable Long customerId) {}

  /**
   * Keeps rows together.
   *
   * @param fileIsKnown whether any row of the file was ever quarantined
   * @return for each, whether it waits; false if the same row was mended or dropped before
   */
  @Transactional
  public List<Boolean> hold(
      Shelf shelf, List<Quarantined> rows, RowHash hashes, boolean fileIsKnown) {
    List<String> digests = rows.stream().map(row -> hashes.of(row.raw())).toList();
    Known known = fileIsKnown ? known(shelf, digests) : new Known(new HashMap<>(), new HashSet<>());
    List<Object[]> fresh = new ArrayList<>();
    List<Object[]> adopted = new ArrayList<>();
    List<Boolean> held = new ArrayList<>();
    for (int i = 0; i < rows.size(); i++) {
      Quarantined row = rows.get(i);
      String digest = digests.get(i);
      Deque<Long> waiting = known.waiting.get(digest);
      Long earlier = waiting == null ? null : waiting.poll();
      boolean waits = earlier != null || !known.settled.contains(digest);
      if (earlier != null) {
        adopted.add(new Object[] {shelf.importId, row.line(), row.reason(), earlier});
      } else if (waits) {
        fresh.add(
            new @Nullable Object[] {
              shelf.importId,
              shelf.file,
              row.line(),
              shelf.header,
              row.raw(),
              digest,
              row.reason(),
              shelf.customerId,
              now()
            });
      }
      held.add(waits);
    }
    batch.batchUpdate(
        "UPDATE intake_quarantine SET import_id = ?, line = ?, reason = ? WHERE id = ?", adopted);
    batch.batchUpdate(
        """
        INSERT INTO intake_quarantine
          (import_id, file, line, header, raw, raw_hash, reason, customer_id, created_at)
        VALUES (?, ?, ?, ?, ?, ?, ?, ?, ?)""",
        fresh);
    return held;
  }

  /** What is already there of some rows: those that wait from other imports, and the settled. */
  private record Known(Map<String, Deque<Long>> waiting, Set<String> settled) {}

  private Known known(Shelf shelf, List<String> digests) {
    var known = new Known(new HashMap<>(), new HashSet<>());
    List<String> distinct = digests.stream().distinct().toList();
    for (int from = 0; from < distinct.size(); from += DIGESTS_A_QUERY) {
      jdbc.sql(
              """
              SELECT id, raw_hash, status, import_id FROM intake_quarantine
              WHERE file = :file AND raw_hash IN (:digests) ORDER BY id""")
          .param("file", shelf.file)
          .param(
              "digests", distinct.subList(from, Math.min(distinct.size(), from + DIGESTS_A_QUERY)))
          .query(
              row -> {
                String digest = row.getString("raw_hash");
                if (!row.getString("status").equals("waiting")) {
                  known.settled.add(digest);
                } else if (!row.getString("import_id").equals(shelf.importId)) {
                  known
                      .waiting
                      .computeIfAbsent(digest, key -> new ArrayDeque<>())
                      .add(row.getLong("id"));
                }
              });
    }
    return known;
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
