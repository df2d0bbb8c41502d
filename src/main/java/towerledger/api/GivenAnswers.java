package towerledger.api;

import java.sql.ResultSet;
import java.sql.SQLException;
import java.time.Clock;
import java.time.Duration;
import java.time.OffsetDateTime;
import java.time.ZoneOffset;
import java.util.Optional;
import org.jspecify.annotations.Nullable;
import org.springframework.dao.DuplicateKeyException;
import org.springframework.jdbc.core.simple.JdbcClient;
import org.springframework.stereotype.Component;

/** The answers given under an Idempotency-Key, shared by all nodes. */
@Component
class GivenAnswers {

  /** How long a retry gets the first answer again. */
  static final Duration KEPT = Duration.ofHours(24);

  /** A request that has given no answer for so long was on a node that died. */
  private static final Duration ABANDONED = Duration.ofMinutes(15);

  /**
   * What is known under a key.
   *
   * @param requestHash hash of the request that was answered; empty while it is being worked on
   * @param status HTTP status; null while it is being worked on
   * @param contentType of the body, if it has one
   * @param body null where it was empty, or too large to be kept
   */
  record Answer(
      String requestHash,
      @Nullable Integer status,
      @Nullable String contentType,
      @Nullable String body,
      OffsetDateTime createdAt) {}

  private final JdbcClient jdbc;
  private final Clock clock;

  GivenAnswers(JdbcClient jdbc, Clock clock) {
    this.jdbc = jdbc;
    this.clock = clock;
  }

  /** Takes a key for a request to be worked on; what is there already if it is taken. */
  Optional<Answer> claim(String owner, String key) {
    try {
      jdbc.sql(
              """
              INSERT INTO api_idempotency (idempotency_key, owner, request_hash, created_at)
              VALUES (:key, :owner, '', :now)""")
          .param("key", key)
          .param("owner", owner)
          .param("now", now())
          .update();
      return Optional.empty();
    } catch (DuplicateKeyException taken) {
      Optional<Answer> answer = find(owner, key);
      return answer.isEmpty() || takesOver(owner, key, answer.get()) ? Optional.empty() : answer;
    }
  }

  private Optional<Answer> find(String owner, String key) {
    return jdbc.sql(
            """
            SELECT request_hash, status, content_type, body, created_at FROM api_idempotency
            WHERE owner = :owner AND idempotency_key = :key""")
        .param("owner", owner)
        .param("key", key)
        .query(GivenAnswers::answer)
        .optional();
  }

  private boolean takesOver(String owner, String key, Answer answer) {
    return answer.status() == null
        && answer.createdAt().plus(ABANDONED).isBefore(now())
        && jdbc.sql(
                    """
                    UPDATE api_idempotency SET created_at = :now
                    WHERE owner = :owner AND idempotency_key = :key AND status IS NULL
                      AND created_at = :seen""")
                .param("now", now())
                .param("owner", owner)
                .param("key", key)
                .param("seen", answer.createdAt())
                .update()
            == 1;
  }

  /** Keeps the answer, before the client gets it. */
  void keep(String owner, String key, Answer answer) {
    jdbc.sql(
            """
            UPDATE api_idempotency
            SET request_hash = :hash, status = :status, content_type = :type, body = :body
            WHERE owner = :owner AND idempotency_key = :key""")
        .param("hash", answer.requestHash())
        .param("status", answer.status())
        .param("type", answer.contentType())
        .param("body", answer.body())
        .param("owner", owner)
        .param("key", key)
        .update();
  }

  /** Gives the key back: nothing was done under it. */
  void release(String owner, String key) {
    jdbc.sql("DELETE FROM api_idempotency WHERE owner = :owner AND idempotency_key = :key")
        .param("owner", owner)
        .param("key", key)
        .update();
  }

  /** Forgets what is older than {@link #KEPT}. */
  void forgetOld() {
    jdbc.sql("DELETE FROM api_idempotency WHERE created_at < :before")
        .param("before", now().minus(KEPT))
        .update();
  }

  private OffsetDateTime now() {
    return OffsetDateTime.ofInstant(clock.instant(), ZoneOffset.UTC);
  }

  private static Answer answer(ResultSet row, int number) throws SQLException {
    return new Answer(
        row.getString("request_hash"),
        row.getObject("status", Integer.class),
        row.getString("content_type"),
        row.getString("body"),
        row.getObject("created_at", OffsetDateTime.class));
  }
}
