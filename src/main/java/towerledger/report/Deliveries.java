package towerledger.report;

import java.sql.ResultSet;
import java.sql.SQLException;
import java.time.Clock;
import java.time.Instant;
import java.time.OffsetDateTime;
import java.time.ZoneOffset;
import java.util.ArrayList;
import java.util.EnumMap;
import java.util.HashMap;
import java.util.List;
import java.util.Locale;
import java.util.Map;
import java.util.Optional;
import org.jspecify.annotations.Nullable;
import org.springframework.jdbc.core.simple.JdbcClient;
import org.springframework.stereotype.Service;
import org.springframework.transaction.annotation.Transactional;
import towerledger.account.Actor;
import towerledger.account.ChangeHistory;
import towerledger.report.delivery.Outbox;
import towerledger.report.delivery.Relay;

/** What became of the mails: the log of deliveries, and what the office has to see to. */
@Service
public class Deliveries {

  private final JdbcClient jdbc;
  private final Outbox outbox;
  private final Relay relay;
  private final ChangeHistory history;
  private final Clock clock;

  Deliveries(JdbcClient jdbc, Outbox outbox, Relay relay, ChangeHistory history, Clock clock) {
    this.jdbc = jdbc;
    this.outbox = outbox;
    this.relay = relay;
    this.history = history;
    this.clock = clock;
  }

  /** The setting without which nothing can be sent; empty when mails can go out. */
  public Optional<String> missingSetting() {
    return relay.missing();
  }

  /** Mails of a report by recipient, each with its attempts. */
  @Transactional(readOnly = true)
  public List<ReportMail> list(long issueId) {
    return withLog(
        jdbc.sql("SELECT * FROM report_mail WHERE issue_id = ? ORDER BY recipient")
            .param(issueId)
            .query(Deliveries::mail)
            .list());
  }

  /** Mails that somebody of the office has to see to and has not yet, newest first. */
  @Transactional(readOnly = true)
  public List<ReportMail> listTroubles() {
    return withLog(
        jdbc.sql(
                """
                SELECT * FROM report_mail
                WHERE status IN ('refused', 'expired', 'bounced') AND noted_at IS NULL
                ORDER BY settled_at DESC, id DESC LIMIT 200""")
            .query(Deliveries::mail)
            .list());
  }

  /** Number of mails that wait. */
  @Transactional(readOnly = true)
  public long countWaiting() {
    return jdbc.sql("SELECT COUNT(*) FROM report_mail WHERE status = 'waiting'")
        .query(Long.class)
        .single();
  }

  /** Number of mails of a report by what came of them. */
  @Transactional(readOnly = true)
  public Map<ReportMail.Status, Integer> count(long issueId) {
    Map<ReportMail.Status, Integer> counts = new EnumMap<>(ReportMail.Status.class);
    jdbc.sql("SELECT status, COUNT(*) AS n FROM report_mail WHERE issue_id = ? GROUP BY status")
        .param(issueId)
        .query(
            row -> {
              counts.put(status(row.getString("status")), row.getInt("n"));
            });
    return counts;
  }

  /** Takes note of a trouble: it is no longer listed. */
  @Transactional
  public void note(long mailId, Actor actor) {
    int noted =
        jdbc.sql("UPDATE report_mail SET noted_at = ? WHERE id = ? AND noted_at IS NULL")
            .params(OffsetDateTime.ofInstant(clock.instant(), ZoneOffset.UTC), mailId)
            .update();
    if (noted == 1) {
      record(mailId, "noted", actor);
    }
  }

  /** Tries a mail again that was settled as trouble, under its old name. */
  @Transactional
  public boolean retry(long mailId, Actor actor) {
    boolean again = outbox.retry(mailId);
    if (again) {
      record(mailId, "tried again", actor);
    }
    return again;
  }

  private void record(long mailId, String action, Actor actor) {
    jdbc.sql("SELECT customer_id, recipient FROM report_mail WHERE id = ?")
        .param(mailId)
        .query(
            row -> {
              history.record(
                  actor,
                  action,
                  "report mail",
                  row.getString("recipient"),
                  row.getLong("customer_id"),
                  null,
                  null);
            });
  }

  private List<ReportMail> withLog(List<ReportMail> mails) {
    if (mails.isEmpty()) {
      return mails;
    }
    Map<Long, List<ReportMail.Attempt>> attempts = new HashMap<>();
    jdbc.sql(
            "SELECT mail_id, at, outcome, answer FROM report_attempt WHERE mail_id IN (:ids)"
                + " ORDER BY id")
        .param("ids", mails.stream().map(ReportMail::id).toList())
        .query(
            row -> {
              attempts
                  .computeIfAbsent(row.getLong("mail_id"), id -> new ArrayList<>())
                  .add(
                      new ReportMail.Attempt(
                          row.getObject("at", OffsetDateTime.class).toInstant(),
                          row.getString("outcome"),
                          row.getString("answer")));
            });
    return mails.stream().map(m -> logged(m, attempts.getOrDefault(m.id(), List.of()))).toList();
  }

  private static ReportMail logged(ReportMail mail, List<ReportMail.Attempt> log) {
    return new ReportMail(
        mail.id(),
        mail.issueId(),
        mail.customerId(),
        mail.recipient(),
        mail.messageId(),
        mail.status(),
        mail.attempts(),
        mail.answer(),
        mail.nextAt(),
        mail.settledAt(),
        log);
  }

  private static ReportMail mail(ResultSet row, int number) throws SQLException {
    return new ReportMail(
        row.getLong("id"),
        row.getLong("issue_id"),
        row.getLong("customer_id"),
        row.getString("recipient"),
        row.getString("message_id"),
        status(row.getString("status")),
        row.getInt("attempts"),
        row.getString("answer"),
        instant(row, "next_at"),
        instant(row, "settled_at"),
        List.of());
  }

  private static ReportMail.Status status(String code) {
    return ReportMail.Status.valueOf(code.toUpperCase(Locale.ROOT));
  }

  private static @Nullable Instant instant(ResultSet row, String column) throws SQLException {
    OffsetDateTime at = row.getObject(column, OffsetDateTime.class);
    return at == null ? null : at.toInstant();
  }
}
