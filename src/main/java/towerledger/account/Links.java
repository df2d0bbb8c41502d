package towerledger.account;

import java.time.Clock;
import java.time.Instant;
import java.time.OffsetDateTime;
import java.time.ZoneOffset;
import java.util.Optional;
import org.springframework.jdbc.core.simple.JdbcClient;
import org.springframework.stereotype.Component;
import org.springframework.transaction.annotation.Transactional;

/** Single-use links: made, looked at, used up. */
@Component
class Links {

  private final JdbcClient jdbc;
  private final Clock clock;

  Links(JdbcClient jdbc, Clock clock) {
    this.jdbc = jdbc;
    this.clock = clock;
  }

  /** Makes a link for a person; those made before stop being good. */
  @Transactional
  String make(long personId, Link.Purpose purpose) {
    Instant now = clock.instant();
    endAll(personId);
    String secret = Secrets.random();
    jdbc.sql(
            """
            INSERT INTO account_link (secret_hash, person_id, purpose, created_at, expires_at)
            VALUES (?, ?, ?, ?, ?)""")
        .params(
            Secrets.hash(secret), personId, purpose.name(), at(now), at(now.plus(purpose.life())))
        .update();
    return secret;
  }

  /** Whose link this is; empty if it is unknown, used, past its end or its person removed. */
  @Transactional(readOnly = true)
  Optional<Link> find(String secret) {
    if (secret.length() > 100) {
      return Optional.empty();
    }
    return jdbc.sql(
            """
            SELECT p.id, p.email, p.name, l.purpose
            FROM account_link l JOIN account_person p ON p.id = l.person_id
            WHERE l.secret_hash = ? AND l.used_at IS NULL AND l.expires_at > ? AND p.enabled""")
        .params(Secrets.hash(secret), at(clock.instant()))
        .query(
            (row, number) ->
                new Link(
                    row.getLong("id"),
                    row.getString("email"),
                    row.getString("name"),
                    Link.Purpose.valueOf(row.getString("purpose"))))
        .optional();
  }

  /** Uses a link up; whether this call did, of two at once. */
  @Transactional
  boolean use(String secret) {
    OffsetDateTime now = at(clock.instant());
    return jdbc.sql(
                """
                UPDATE account_link SET used_at = ?
                WHERE secret_hash = ? AND used_at IS NULL AND expires_at > ?""")
            .params(now, Secrets.hash(secret), now)
            .update()
        == 1;
  }

  /** Ends every open link of a person. */
  @Transactional
  void endAll(long personId) {
    jdbc.sql("UPDATE account_link SET used_at = ? WHERE person_id = ? AND used_at IS NULL")
        .params(at(clock.instant()), personId)
        .update();
  }

  private static OffsetDateTime at(Instant instant) {
    return OffsetDateTime.ofInstant(instant, ZoneOffset.UTC);
  }
}
