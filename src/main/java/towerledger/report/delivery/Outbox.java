package towerledger.report.delivery;

import java.security.SecureRandom;
import java.sql.ResultSet;
import java.sql.SQLException;
import java.time.Clock;
import java.time.Instant;
import java.time.LocalDate;
import java.time.OffsetDateTime;
import java.time.YearMonth;
import java.time.ZoneOffset;
import java.util.HexFormat;
import java.util.List;
import java.util.Optional;
import org.jspecify.annotations.Nullable;
import org.springframework.beans.factory.ObjectProvider;
import org.springframework.jdbc.core.simple.JdbcClient;
import org.springframework.stereotype.Component;
import org.springframework.transaction.annotation.Propagation;
import org.springframework.transaction.annotation.Transactional;
import towerledger.account.SmtpAnswer;

/**
 * The mails that wait, and what came of them. A mail and the task that carries it are written in
 * the transaction that decided to send, so neither is there without the other.
 */
@Component
public class Outbox {

  private static final SecureRandom RANDOM = new SecureRandom();

  private final JdbcClient jdbc;
  private final ObjectProvider<MailRounds> rounds;
  private final MailSettings settings;
  private final Clock clock;

  Outbox(JdbcClient jdbc, ObjectProvider<MailRounds> rounds, MailSettings settings, Clock clock) {
    this.jdbc = jdbc;
    this.rounds = rounds;
    this.settings = settings;
    this.clock = clock;
  }

  /**
   * Puts a report to the customer's recipients into the outbox; those who asked to be left alone
   * are written down as such. The recipients are read here, by the customer's own key.
   */
  @Transactional(propagation = Propagation.MANDATORY)
  public void put(long issueId, long customerId) {
    String addresses =
        jdbc.sql("SELECT COALESCE(report_emails, '') FROM account_customer WHERE id = ?")
            .param(customerId)
            .query(String.class)
            .single();
    for (String address : List.of(addresses.split(";"))) {
      if (!address.isBlank()) {
        put(issueId, customerId, address.strip());
      }
    }
  }

  private void put(long issueId, long customerId, String recipient) {
    boolean left = hasLeft(customerId, recipient);
    OffsetDateTime now = at(clock.instant());
    jdbc.sql(
            """
            INSERT INTO report_mail (issue_id, customer_id, recipient, message_id, leave_token,
              status, next_at, created_at, settled_at)
            SELECT id, customer_id, :recipient, :message, :token, :status, :next, :now, :settled
            FROM report_issue WHERE id = :issue AND customer_id = :customer""")
        .param("recipient", recipient)
        .param("message", "<report-%d.%s@%s>".formatted(issueId, random(8), settings.domain()))
        .param("token", random(20))
        .param("status", left ? "left" : "waiting")
        .param("next", left ? null : now, java.sql.Types.TIMESTAMP_WITH_TIMEZONE)
        .param("now", now)
        .param("settled", left ? now : null, java.sql.Types.TIMESTAMP_WITH_TIMEZONE)
        .param("issue", issueId)
        .param("customer", customerId)
        .update();
    if (!left) {
      long id =
          jdbc.sql("SELECT id FROM report_mail WHERE issue_id = ? AND recipient = ?")
              .params(issueId, recipient)
              .query(Long.class)
              .single();
      schedule(id, clock.instant());
    }
  }

  private boolean hasLeft(long customerId, String recipient) {
    return jdbc.sql("SELECT COUNT(*) FROM report_leaver WHERE customer_id = ? AND recipient = ?")
            .params(customerId, recipient)
            .query(Long.class)
            .single()
        > 0;
  }

  /** Tries a refused or expired mail again, under its old name. */
  @Transactional
  public boolean retry(long mailId) {
    Instant now = clock.instant();
    int changed =
        jdbc.sql(
                """
                UPDATE report_mail SET status = 'waiting', attempts = 0, settled_at = NULL,
                  noted_at = NULL, noticed_at = NULL, next_at = :now, created_at = :now
                WHERE id = :id AND status IN ('refused', 'expired', 'bounced')""")
            .param("now", at(now))
            .param("id", mailId)
            .update();
    if (changed == 1) {
      schedule(mailId, now);
    }
    return changed == 1;
  }

  private void schedule(long mailId, Instant when) {
    rounds.getObject().schedule(mailId, when);
  }

  /** The mail with a key, while it still waits. */
  @Transactional(readOnly = true)
  Optional<OutgoingMail> findWaiting(long mailId) {
    return jdbc.sql(
            """
            SELECT m.id, m.recipient, m.message_id, m.leave_token, m.attempts, m.created_at,
              i.decided_at, i.subject, i.language, p.reply_to, u.code, i.month_start,
              l.recipient AS leaver, c.html, c.plain, c.pdf, c.csv, c.picture
            FROM report_mail m
            JOIN report_issue i ON i.id = m.issue_id AND i.customer_id = m.customer_id
            JOIN report_copy c ON c.issue_id = i.id
            JOIN account_customer u ON u.id = m.customer_id
            LEFT JOIN report_plan p ON p.customer_id = m.customer_id
            LEFT JOIN report_leaver l ON l.customer_id = m.customer_id
              AND l.recipient = m.recipient
            WHERE m.id = ? AND m.status = 'waiting'""")
        .param(mailId)
        .query(Outbox::mail)
        .optional();
  }

  private static OutgoingMail mail(ResultSet row, int number) throws SQLException {
    return new OutgoingMail(
        row.getLong("id"),
        row.getString("recipient"),
        row.getString("message_id"),
        row.getString("leave_token"),
        row.getInt("attempts"),
        row.getObject("created_at", OffsetDateTime.class).toInstant(),
        row.getObject("decided_at", OffsetDateTime.class).toInstant(),
        row.getString("subject"),
        row.getString("language"),
        row.getString("reply_to"),
        "tower-water-%s-%s"
            .formatted(
                YearMonth.from(row.getObject("month_start", LocalDate.class)),
                row.getString("code")),
        row.getString("leaver") != null,
        row.getString("html"),
        row.getString("plain"),
        row.getBytes("pdf"),
        row.getString("csv"),
        row.getBytes("picture"));
  }

  /** Writes down an attempt that settled the mail. */
  @Transactional
  void settle(long mailId, String status, SmtpAnswer answer) {
    note(mailId, answer);
    jdbc.sql(
            """
            UPDATE report_mail SET status = :status, settled_at = :now, next_at = NULL,
              attempts = attempts + 1, answer = :answer
            WHERE id = :id AND status = 'waiting'""")
        .param("status", status)
        .param("now", at(clock.instant()))
        .param("answer", answer.text())
        .param("id", mailId)
        .update();
  }

  /**
   * Writes down an attempt that leaves the mail waiting.
   *
   * @param counts whether it counts as an attempt at this mail
   */
  @Transactional
  void postpone(long mailId, Instant until, SmtpAnswer answer, boolean counts) {
    note(mailId, answer);
    jdbc.sql(
            """
            UPDATE report_mail SET next_at = :until, answer = :answer,
              attempts = attempts + :counted
            WHERE id = :id AND status = 'waiting'""")
        .param("until", at(until))
        .param("answer", answer.text())
        .param("counted", counts ? 1 : 0)
        .param("id", mailId)
        .update();
  }

  /** Settles a mail that is not sent, since its recipient has left. */
  @Transactional
  void leave(long mailId) {
    jdbc.sql(
            """
            UPDATE report_mail SET status = 'left', settled_at = ?, next_at = NULL
            WHERE id = ? AND status = 'waiting'""")
        .params(at(clock.instant()), mailId)
        .update();
  }

  /**
   * Marks a mail as come back.
   *
   * @param messageId its name, with angle brackets
   * @return whether there is such a mail that was accepted
   */
  @Transactional
  boolean bounce(String messageId, String words) {
    SmtpAnswer answer = new SmtpAnswer(SmtpAnswer.Kind.REFUSED, words);
    Optional<Long> id =
        jdbc.sql("SELECT id FROM report_mail WHERE message_id = ? AND status = 'accepted'")
            .param(messageId)
            .query(Long.class)
            .optional();
    id.ifPresent(
        mail -> {
          note(mail, answer);
          jdbc.sql(
                  """
                  UPDATE report_mail SET status = 'bounced', settled_at = ?, answer = ?,
                    noted_at = NULL, noticed_at = NULL
                  WHERE id = ?""")
              .params(at(clock.instant()), answer.text(), mail)
              .update();
        });
    return id.isPresent();
  }

  /**
   * A mail that did not arrive.
   *
   * @param replyTo where answers of its customer go by the plan; null for the program's own setting
   */
  record Trouble(
      long mailId,
      String customer,
      YearMonth month,
      String recipient,
      String status,
      String answer,
      @Nullable String replyTo) {}

  /** Mails that did not arrive and that nobody of the office was told of or has seen. */
  @Transactional(readOnly = true)
  List<Trouble> listUntold() {
    return jdbc.sql(
            """
            SELECT m.id, u.name, i.month_start, m.recipient, m.status,
              COALESCE(m.answer, '') AS answer, p.reply_to
            FROM report_mail m
            JOIN report_issue i ON i.id = m.issue_id
            JOIN account_customer u ON u.id = m.customer_id
            LEFT JOIN report_plan p ON p.customer_id = m.customer_id
            WHERE m.status IN ('refused', 'expired', 'bounced') AND m.noticed_at IS NULL
              AND m.noted_at IS NULL
            ORDER BY m.id LIMIT 1000""")
        .query(
            (row, number) ->
                new Trouble(
                    row.getLong("id"),
                    row.getString("name"),
                    YearMonth.from(row.getObject("month_start", LocalDate.class)),
                    row.getString("recipient"),
                    row.getString("status"),
                    row.getString("answer"),
                    row.getString("reply_to")))
        .list();
  }

  /** Writes down that the office was told. */
  @Transactional
  void told(List<Trouble> troubles) {
    jdbc.sql("UPDATE report_mail SET noticed_at = :now WHERE id IN (:mails)")
        .param("now", at(clock.instant()))
        .param("mails", troubles.stream().map(Trouble::mailId).toList())
        .update();
  }

  private void note(long mailId, SmtpAnswer answer) {
    jdbc.sql("INSERT INTO report_attempt (mail_id, at, outcome, answer) VALUES (?, ?, ?, ?)")
        .params(
            mailId,
            at(clock.instant()),
            answer.kind().name().toLowerCase(java.util.Locale.ROOT).replace('_', '-'),
            answer.text())
        .update();
  }

  private static String random(int bytes) {
    byte[] random = new byte[bytes];
    RANDOM.nextBytes(random);
    return HexFormat.of().formatHex(random);
  }

  private static OffsetDateTime at(Instant instant) {
    return OffsetDateTime.ofInstant(instant, ZoneOffset.UTC);
  }
}
