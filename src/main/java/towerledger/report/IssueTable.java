package towerledger.report;

import java.nio.charset.StandardCharsets;
import java.security.MessageDigest;
import java.security.NoSuchAlgorithmException;
import java.sql.ResultSet;
import java.sql.SQLException;
import java.time.Clock;
import java.time.Instant;
import java.time.LocalDate;
import java.time.OffsetDateTime;
import java.time.YearMonth;
import java.time.ZoneId;
import java.time.ZoneOffset;
import java.util.Collection;
import java.util.HexFormat;
import java.util.List;
import java.util.Locale;
import java.util.Optional;
import org.springframework.jdbc.core.simple.JdbcClient;
import org.springframework.stereotype.Component;
import towerledger.account.UnitPreference;
import towerledger.report.content.Rendered;
import towerledger.report.content.ReportOrder;

/** The reports as stored. */
@Component
class IssueTable {

  private final JdbcClient jdbc;
  private final Clock clock;

  IssueTable(JdbcClient jdbc, Clock clock) {
    this.jdbc = jdbc;
    this.clock = clock;
  }

  /**
   * Stores a report with all that is sent of it.
   *
   * @throws org.springframework.dao.DuplicateKeyException when there is that edition already
   */
  long add(
      ReportOrder order, int edition, Rendered rendered, ReportIssue.Status status, String by) {
    jdbc.sql(
            """
            INSERT INTO report_issue (customer_id, month_start, edition, status, language, units,
              time_zone, note, note_by, subject, notable, digest, prepared_at, prepared_by)
            VALUES (:customer, :month, :edition, :status, :language, :units, :zone, :note, :noteBy,
              :subject, :notable, :digest, :at, :by)""")
        .param("customer", order.customerId())
        .param("month", order.month().atDay(1))
        .param("edition", edition)
        .param("status", status.code())
        .param("language", order.language())
        .param("units", order.units().name())
        .param("zone", order.zone().getId())
        .param("note", order.note())
        .param("noteBy", order.noteBy())
        .param("subject", shortened(rendered.subject()))
        .param("notable", rendered.notable())
        .param("digest", digest(rendered))
        .param("at", at(order.preparedAt()))
        .param("by", by)
        .update();
    long id =
        jdbc.sql(
                """
                SELECT id FROM report_issue
                WHERE customer_id = ? AND month_start = ? AND edition = ?""")
            .params(order.customerId(), order.month().atDay(1), edition)
            .query(Long.class)
            .single();
    copy(id, rendered);
    return id;
  }

  /** Stores a draft anew. */
  void rewrite(long id, ReportOrder order, Rendered rendered, String by) {
    int changed =
        jdbc.sql(
                """
                UPDATE report_issue SET language = :language, units = :units, time_zone = :zone,
                  note = :note, note_by = :noteBy, subject = :subject, notable = :notable,
                  digest = :digest, prepared_at = :at, prepared_by = :by
                WHERE id = :id AND status = 'draft'""")
            .param("language", order.language())
            .param("units", order.units().name())
            .param("zone", order.zone().getId())
            .param("note", order.note())
            .param("noteBy", order.noteBy())
            .param("subject", shortened(rendered.subject()))
            .param("notable", rendered.notable())
            .param("digest", digest(rendered))
            .param("at", at(order.preparedAt()))
            .param("by", by)
            .param("id", id)
            .update();
    if (changed == 0) {
      throw new ReportException("the report was decided on since you saw it");
    }
    jdbc.sql("DELETE FROM report_copy WHERE issue_id = ?").param(id).update();
    copy(id, rendered);
  }

  private void copy(long id, Rendered rendered) {
    jdbc.sql(
            """
            INSERT INTO report_copy (issue_id, html, plain, pdf, csv, picture)
            VALUES (?, ?, ?, ?, ?, ?)""")
        .params(
            id,
            rendered.html(),
            rendered.plain(),
            rendered.pdf(),
            rendered.csv(),
            rendered.picture())
        .update();
  }

  /** Decides on a draft, if it is still the one that was seen. */
  boolean decide(long id, String digest, ReportIssue.Status status, String by) {
    return jdbc.sql(
                """
                UPDATE report_issue SET status = :status, decided_at = :at, decided_by = :by
                WHERE id = :id AND status = 'draft' AND digest = :digest""")
            .param("status", status.code())
            .param("at", at(clock.instant()))
            .param("by", by)
            .param("id", id)
            .param("digest", digest)
            .update()
        == 1;
  }

  ReportIssue get(long id) {
    return find(id).orElseThrow(() -> new ReportException("there is no report with key " + id));
  }

  Optional<ReportIssue> find(long id) {
    return jdbc.sql("SELECT * FROM report_issue WHERE id = ?")
        .param(id)
        .query(IssueTable::issue)
        .optional();
  }

  /** The newest edition of a month. */
  Optional<ReportIssue> findNewest(long customerId, YearMonth month) {
    return jdbc.sql(
            """
            SELECT * FROM report_issue WHERE customer_id = ? AND month_start = ?
            ORDER BY edition DESC LIMIT 1""")
        .params(customerId, month.atDay(1))
        .query(IssueTable::issue)
        .optional();
  }

  List<ReportIssue> list(long customerId) {
    return jdbc.sql(
            """
            SELECT * FROM report_issue WHERE customer_id = ?
            ORDER BY month_start DESC, edition DESC""")
        .param(customerId)
        .query(IssueTable::issue)
        .list();
  }

  List<ReportIssue> listDrafts() {
    return jdbc.sql("SELECT * FROM report_issue WHERE status = 'draft' ORDER BY prepared_at, id")
        .query(IssueTable::issue)
        .list();
  }

  List<ReportIssue> listNewest(Collection<Long> customerIds) {
    if (customerIds.isEmpty()) {
      return List.of();
    }
    return jdbc.sql(
            """
            SELECT i.* FROM report_issue i
            WHERE i.id IN (SELECT MAX(n.id) FROM report_issue n
              WHERE n.customer_id IN (:customers) AND n.status <> 'discarded'
              GROUP BY n.customer_id)""")
        .param("customers", customerIds)
        .query(IssueTable::issue)
        .list();
  }

  /** When the last report that was sent to a customer was written. */
  Optional<Instant> findLastSent(long customerId) {
    return jdbc.sql(
            """
            SELECT MAX(prepared_at) AS at FROM report_issue
            WHERE customer_id = ? AND status = 'approved'""")
        .param(customerId)
        .query((row, number) -> Optional.ofNullable(row.getObject("at", OffsetDateTime.class)))
        .single()
        .map(OffsetDateTime::toInstant);
  }

  int countSent(long customerId, YearMonth month) {
    return jdbc.sql(
            """
            SELECT COUNT(*) FROM report_issue
            WHERE customer_id = ? AND month_start = ? AND status = 'approved'""")
        .params(customerId, month.atDay(1))
        .query(Integer.class)
        .single();
  }

  ReportCopy getCopy(long id) {
    return jdbc.sql("SELECT html, plain, pdf, csv, picture FROM report_copy WHERE issue_id = ?")
        .param(id)
        .query(
            (row, number) ->
                new ReportCopy(
                    row.getString(1),
                    row.getString(2),
                    row.getBytes(3),
                    row.getString(4),
                    row.getBytes(5)))
        .optional()
        .orElseThrow(() -> new ReportException("there is no report with key " + id));
  }

  static ReportIssue issue(ResultSet row, int number) throws SQLException {
    OffsetDateTime decided = row.getObject("decided_at", OffsetDateTime.class);
    return new ReportIssue(
        row.getLong("id"),
        row.getLong("customer_id"),
        YearMonth.from(row.getObject("month_start", LocalDate.class)),
        row.getInt("edition"),
        ReportIssue.Status.valueOf(row.getString("status").toUpperCase(Locale.ROOT)),
        row.getString("language"),
        UnitPreference.valueOf(row.getString("units")),
        ZoneId.of(row.getString("time_zone")),
        row.getString("note"),
        row.getString("note_by"),
        row.getString("subject"),
        row.getBoolean("notable"),
        row.getString("digest"),
        row.getObject("prepared_at", OffsetDateTime.class).toInstant(),
        row.getString("prepared_by"),
        decided == null ? null : decided.toInstant(),
        row.getString("decided_by"));
  }

  private static String digest(Rendered rendered) {
    try {
      MessageDigest digest = MessageDigest.getInstance("SHA-256");
      for (String text :
          List.of(rendered.subject(), rendered.html(), rendered.plain(), rendered.csv())) {
        digest.update(text.getBytes(StandardCharsets.UTF_8));
        digest.update((byte) 0);
      }
      digest.update(rendered.pdf());
      digest.update(rendered.picture());
      return HexFormat.of().formatHex(digest.digest());
    } catch (NoSuchAlgorithmException e) {
      throw new IllegalStateException("every Java runtime has SHA-256", e);
    }
  }

  private static String shortened(String subject) {
    return subject.length() <= 500 ? subject : subject.substring(0, 499) + "…";
  }

  private static OffsetDateTime at(Instant instant) {
    return OffsetDateTime.ofInstant(instant, ZoneOffset.UTC);
  }
}
