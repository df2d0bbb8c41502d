package towerledger.report;

import java.time.Clock;
import java.time.OffsetDateTime;
import java.time.ZoneOffset;
import java.util.List;
import java.util.Optional;
import org.springframework.jdbc.core.simple.JdbcClient;
import org.springframework.stereotype.Service;
import org.springframework.transaction.annotation.Transactional;
import towerledger.account.Actor;
import towerledger.account.ChangeHistory;

/** Recipients who asked to be left alone, by the link or the one click of a mail (RFC 8058). */
@Service
public class Leavers {

  private final JdbcClient jdbc;
  private final ChangeHistory history;
  private final Clock clock;

  Leavers(JdbcClient jdbc, ChangeHistory history, Clock clock) {
    this.jdbc = jdbc;
    this.history = history;
    this.clock = clock;
  }

  /** Whose mail a link belongs to. */
  private record Ticket(long customerId, String recipient, String code) {}

  /** The address that would leave by a link; empty when there is no such link. */
  @Transactional(readOnly = true)
  public Optional<String> findRecipient(String token) {
    return ticket(token).map(Ticket::recipient);
  }

  /**
   * Leaves the recipient of a mail alone from now on: no report of that customer goes to the
   * address any more, waiting ones included. Leaving twice is leaving once.
   *
   * @param how {@code link} or {@code one-click}
   * @return whether there is such a link
   */
  @Transactional
  public boolean leave(String token, String how) {
    Optional<Ticket> found = ticket(token);
    if (found.isEmpty()) {
      return false;
    }
    Ticket ticket = found.get();
    OffsetDateTime now = OffsetDateTime.ofInstant(clock.instant(), ZoneOffset.UTC);
    int added =
        jdbc.sql(
                """
                INSERT INTO report_leaver (customer_id, recipient, left_at, how)
                SELECT CAST(:customer AS BIGINT), CAST(:recipient AS VARCHAR),
                  CAST(:now AS TIMESTAMP WITH TIME ZONE), CAST(:how AS VARCHAR)
                WHERE NOT EXISTS (SELECT 1 FROM report_leaver
                  WHERE customer_id = :customer AND recipient = :recipient)""")
            .param("customer", ticket.customerId())
            .param("recipient", ticket.recipient())
            .param("now", now)
            .param("how", how)
            .update();
    jdbc.sql(
            """
            UPDATE report_mail SET status = 'left', settled_at = :now, next_at = NULL
            WHERE customer_id = :customer AND recipient = :recipient AND status = 'waiting'""")
        .param("now", now)
        .param("customer", ticket.customerId())
        .param("recipient", ticket.recipient())
        .update();
    if (added == 1) {
      history.record(
          new Actor(ticket.recipient(), "unsubscribe " + how),
          "left",
          "report plan",
          ticket.code(),
          ticket.customerId(),
          null,
          null);
    }
    return true;
  }

  private Optional<Ticket> ticket(String token) {
    return jdbc.sql(
            """
            SELECT m.customer_id, m.recipient, c.code FROM report_mail m
            JOIN account_customer c ON c.id = m.customer_id WHERE m.leave_token = ?""")
        .param(token)
        .query((row, n) -> new Ticket(row.getLong(1), row.getString(2), row.getString(3)))
        .optional();
  }

  /** Addresses of a customer's list that asked to be left alone. */
  @Transactional(readOnly = true)
  public List<String> list(long customerId) {
    return jdbc.sql("SELECT recipient FROM report_leaver WHERE customer_id = ? ORDER BY recipient")
        .param(customerId)
        .query(String.class)
        .list();
  }

  /** Takes an address back in, at its owner's wish; the history says who did. */
  @Transactional
  public void welcomeBack(long customerId, String recipient, Actor actor) {
    int removed =
        jdbc.sql("DELETE FROM report_leaver WHERE customer_id = ? AND recipient = ?")
            .params(customerId, recipient)
            .update();
    if (removed == 1) {
      history.record(actor, "welcomed back", "report recipient", recipient, customerId, null, null);
    }
  }
}
