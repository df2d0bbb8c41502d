package towerledger.intake;

import java.time.Clock;
import java.time.OffsetDateTime;
import java.time.ZoneOffset;
import java.util.ArrayList;
import java.util.List;
import java.util.Map;
import org.springframework.jdbc.core.simple.JdbcClient;
import org.springframework.stereotype.Service;
import org.springframework.transaction.annotation.Transactional;
import towerledger.account.Actor;
import towerledger.account.ChangeHistory;
import towerledger.account.Viewer;

/** The office's work on all rows that wait of one file of one import. */
@Service
public class WaitingRows {

  /** As many as are tried while somebody waits for the page. */
  static final int AT_ONCE = 1000;

  /** More than an import has kinds of files. */
  private static final int MOST_FILES = 100;

  private static final String OF_FILE =
      " WHERE status = 'waiting' AND import_id = :import AND file = :file";

  private final JdbcClient jdbc;
  private final Importer importer;
  private final QuarantineStore store;
  private final ChangeHistory history;
  private final Clock clock;

  WaitingRows(
      JdbcClient jdbc,
      Importer importer,
      QuarantineStore store,
      ChangeHistory history,
      Clock clock) {
    this.jdbc = jdbc;
    this.importer = importer;
    this.store = store;
    this.history = history;
    this.clock = clock;
  }

  /**
   * A file of which rows wait.
   *
   * @param importId the import they came with last
   * @param file its name without {@code .csv}
   * @param rows how many wait
   * @param reason why one of them was not taken
   */
  public record Sheet(String importId, String file, long rows, String reason) {}

  /** Files of which rows wait, the newest first. */
  @Transactional(readOnly = true)
  public List<Sheet> list(int most) {
    return sheets("", Map.of("most", most));
  }

  /** Files of an import of which rows wait: those it brought first, or brought again last. */
  @Transactional(readOnly = true)
  public List<Sheet> listOf(String importId) {
    return sheets(" AND import_id = :import", Map.of("import", importId, "most", MOST_FILES));
  }

  private List<Sheet> sheets(String which, Map<String, Object> values) {
    return jdbc.sql(
            """
            SELECT g.import_id, g.file, g.waiting, q.reason
            FROM (
              SELECT import_id, file, COUNT(*) AS waiting, MAX(id) AS newest FROM intake_quarantine
              WHERE status = 'waiting'%s GROUP BY import_id, file
              ORDER BY newest DESC FETCH FIRST :most ROWS ONLY) g
            JOIN intake_quarantine q ON q.id = g.newest
            ORDER BY g.newest DESC"""
                .formatted(which))
        .params(values)
        .query(
            (row, number) ->
                new Sheet(
                    row.getString("import_id"),
                    row.getString("file"),
                    row.getLong("waiting"),
                    row.getString("reason")))
        .list();
  }

  /** How many rows of a file wait. */
  @Transactional(readOnly = true)
  public long count(String importId, String file) {
    return jdbc.sql("SELECT COUNT(*) FROM intake_quarantine" + OF_FILE)
        .param("import", importId)
        .param("file", file)
        .query(Long.class)
        .single();
  }

  /** Rows of a file that wait, as they came. */
  @Transactional(readOnly = true)
  public List<QuarantinedRow> rows(String importId, String file, int offset, int limit) {
    return jdbc.sql(
            Quarantine.SELECT
                + OF_FILE
                + " ORDER BY id OFFSET :offset ROWS FETCH NEXT :limit ROWS ONLY")
        .param("import", importId)
        .param("file", file)
        .param("offset", offset)
        .param("limit", limit)
        .query(Quarantine::row)
        .list();
  }

  /**
   * What came of trying.
   *
   * @param tried how many rows were tried
   * @param taken how many of them were taken
   * @param last key of the last row tried; 0 where none was
   * @param more whether rows after it wait that were not tried
   */
  public record Outcome(int tried, int taken, long last, boolean more) {}

  /**
   * Tries rows again as they came, for instance after a missing meter was added.
   *
   * @param after key of the row after which to begin, 0 for the first
   */
  public Outcome tryAgain(Viewer viewer, Actor actor, String importId, String file, long after) {
    List<QuarantinedRow> rows =
        jdbc.sql(
                Quarantine.SELECT
                    + OF_FILE
                    + " AND id > :after ORDER BY id FETCH FIRST :most ROWS ONLY")
            .param("import", importId)
            .param("file", file)
            .param("after", after)
            .param("most", AT_ONCE + 1)
            .query(Quarantine::row)
            .list();
    boolean more = rows.size() > AT_ONCE;
    List<QuarantinedRow> tried = rows.subList(0, Math.min(rows.size(), AT_ONCE));
    List<Quarantine.Retry> retries =
        importer.retryEach(
            file,
            tried.stream().map(QuarantinedRow::asFile).toList(),
            new ImportRequest(actor, viewer, "quarantine"));
    List<Long> taken = new ArrayList<>();
    for (int i = 0; i < tried.size(); i++) {
      if (retries.get(i).taken()) {
        taken.add(tried.get(i).id());
      } else if (!retries.get(i).reason().equals(tried.get(i).reason())) {
        jdbc.sql("UPDATE intake_quarantine SET reason = ? WHERE id = ? AND status = 'waiting'")
            .params(retries.get(i).reason(), tried.get(i).id())
            .update();
      }
    }
    store.settle(taken, actor.name());
    record(actor, importId, file, QuarantinedRow.Status.MENDED, taken.size());
    return new Outcome(
        tried.size(), taken.size(), tried.isEmpty() ? 0 : tried.get(tried.size() - 1).id(), more);
  }

  /** Decides that none of the rows is to be taken; they stay on record. */
  @Transactional
  public int dropAll(Actor actor, String importId, String file) {
    int dropped =
        jdbc.sql(
                "UPDATE intake_quarantine SET status = 'dropped', settled_at = :at, settled_by = :by"
                    + OF_FILE)
            .param("at", OffsetDateTime.ofInstant(clock.instant(), ZoneOffset.UTC))
            .param("by", actor.name())
            .param("import", importId)
            .param("file", file)
            .update();
    record(actor, importId, file, QuarantinedRow.Status.DROPPED, dropped);
    return dropped;
  }

  private void record(
      Actor actor, String importId, String file, QuarantinedRow.Status status, int rows) {
    if (rows > 0) {
      history.record(
          actor,
          status.code(),
          "quarantined rows",
          file + " of import " + importId,
          null,
          Map.of("rows", rows),
          null);
    }
  }
}
