package towerledger.intake;

import java.io.ByteArrayInputStream;
import java.io.IOException;
import java.io.UncheckedIOException;
import java.nio.charset.StandardCharsets;
import java.sql.ResultSet;
import java.sql.SQLException;
import java.time.Clock;
import java.time.OffsetDateTime;
import java.time.ZoneOffset;
import java.util.Arrays;
import java.util.List;
import java.util.Locale;
import java.util.Map;
import java.util.Optional;
import org.apache.commons.csv.CSVFormat;
import org.jspecify.annotations.Nullable;
import org.springframework.jdbc.core.simple.JdbcClient;
import org.springframework.stereotype.Service;
import org.springframework.transaction.annotation.Transactional;
import towerledger.account.Actor;
import towerledger.account.ChangeHistory;
import towerledger.account.Viewer;
import towerledger.intake.csv.CsvRecord;
import towerledger.intake.csv.CsvRecords;

/**
 * Rows that could not be taken: listed, mended and tried again, or dropped. Whoever sees all of a
 * customer's things sees that customer's rows; rows that came from the office are the office's.
 */
@Service
public class Quarantine {

  private static final long NOBODY = -1;

  /** What {@link #row} reads. */
  static final String SELECT =
      """
      SELECT id, import_id, file, line, header, raw, reason, status, created_at, settled_by
      FROM intake_quarantine""";

  private static final String OF_VIEWER =
      SELECT + " WHERE (CAST(:customer AS BIGINT) IS NULL OR customer_id = :customer)";

  private final JdbcClient jdbc;
  private final Importer importer;
  private final ChangeHistory history;
  private final Clock clock;

  Quarantine(JdbcClient jdbc, Importer importer, ChangeHistory history, Clock clock) {
    this.jdbc = jdbc;
    this.importer = importer;
    this.history = history;
    this.clock = clock;
  }

  /** Rows with a status, newest first. */
  @Transactional(readOnly = true)
  public List<QuarantinedRow> list(
      Viewer viewer, QuarantinedRow.Status status, int offset, int limit) {
    return jdbc.sql(
            OF_VIEWER
                + " AND status = :status ORDER BY id DESC"
                + " OFFSET :offset ROWS FETCH NEXT :limit ROWS ONLY")
        .param("customer", whose(viewer))
        .param("status", status.code())
        .param("offset", offset)
        .param("limit", limit)
        .query(Quarantine::row)
        .list();
  }

  /** Whose rows a viewer sees: all for the office, a customer's own; a technician sees none. */
  private static @Nullable Long whose(Viewer viewer) {
    Long customer = viewer.customerId();
    return customer == null && !viewer.isOffice() ? Long.valueOf(NOBODY) : customer;
  }

  /** How many rows wait. */
  @Transactional(readOnly = true)
  public long countWaiting(Viewer viewer) {
    return jdbc.sql(
            """
            SELECT COUNT(*) FROM intake_quarantine
            WHERE status = 'waiting'
              AND (CAST(:customer AS BIGINT) IS NULL OR customer_id = :customer)""")
        .param("customer", whose(viewer))
        .query(Long.class)
        .single();
  }

  /** A row, if this viewer may see it. */
  @Transactional(readOnly = true)
  public Optional<QuarantinedRow> find(Viewer viewer, long id) {
    return jdbc.sql(OF_VIEWER + " AND id = :id")
        .param("customer", whose(viewer))
        .param("id", id)
        .query(Quarantine::row)
        .optional();
  }

  /**
   * What became of a try.
   *
   * @param taken whether the row was taken
   * @param reason why not, else empty
   */
  public record Retry(boolean taken, String reason) {}

  /**
   * Tries a waiting row again with its text mended.
   *
   * @param raw one line of CSV under the row's own columns
   */
  public Retry mend(Viewer viewer, Actor actor, QuarantinedRow row, String raw) {
    if (row.status() != QuarantinedRow.Status.WAITING) {
      return new Retry(false, "the row was settled before; nothing was done");
    }
    String text = row.asFile(raw);
    requireOneRow(text);
    var retry = importer.retry(row.file(), text, new ImportRequest(actor, viewer, "quarantine"));
    if (retry.taken()) {
      settle(actor, row, QuarantinedRow.Status.MENDED, raw);
    }
    return retry;
  }

  /** Tries a waiting row again with cells given by column. */
  public Retry mend(Viewer viewer, Actor actor, QuarantinedRow row, Map<String, String> cells) {
    Object[] values =
        row.columns().stream().map(column -> cells.getOrDefault(column, "")).toArray();
    return mend(viewer, actor, row, CSVFormat.RFC4180.format(values));
  }

  private static void requireOneRow(String text) {
    try (var records =
        new CsvRecords(new ByteArrayInputStream(text.getBytes(StandardCharsets.UTF_8)), ',')) {
      records.next();
      CsvRecord first = records.next();
      if (first == null || records.next() != null) {
        throw new UploadRefused(
            UploadRefused.Kind.WRONG_CONTENT,
            "give exactly one row; put quotes around text that holds line ends");
      }
    } catch (IOException e) {
      throw new UncheckedIOException(e);
    }
  }

  /** Decides that a waiting row is not to be taken; it stays on record. */
  public void drop(Actor actor, QuarantinedRow row) {
    settle(actor, row, QuarantinedRow.Status.DROPPED, null);
  }

  private void settle(
      Actor actor, QuarantinedRow row, QuarantinedRow.Status status, @Nullable String mended) {
    int settled =
        jdbc.sql(
                """
                UPDATE intake_quarantine
                SET status = :status, settled_at = :at, settled_by = :by
                WHERE id = :id AND status = 'waiting'""")
            .param("status", status.code())
            .param("at", OffsetDateTime.ofInstant(clock.instant(), ZoneOffset.UTC))
            .param("by", actor.name())
            .param("id", row.id())
            .update();
    if (settled > 0) {
      history.record(
          actor,
          status.code(),
          "quarantined row",
          row.file() + " line " + row.line(),
          null,
          Map.of("row", row.raw()),
          mended == null ? null : Map.of("row", mended));
    }
  }

  static QuarantinedRow row(ResultSet row, int number) throws SQLException {
    return new QuarantinedRow(
        row.getLong("id"),
        row.getString("import_id"),
        row.getString("file"),
        row.getLong("line"),
        Arrays.asList(row.getString("header").split(",")),
        row.getString("raw"),
        row.getString("reason"),
        QuarantinedRow.Status.valueOf(row.getString("status").toUpperCase(Locale.ROOT)),
        row.getObject("created_at", OffsetDateTime.class).toInstant(),
        Optional.ofNullable(row.getString("settled_by")));
  }
}
