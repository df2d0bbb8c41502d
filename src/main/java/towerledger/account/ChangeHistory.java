package towerledger.account;

import java.time.Clock;
import java.time.OffsetDateTime;
import java.time.ZoneOffset;
import org.jspecify.annotations.Nullable;
import org.springframework.jdbc.core.simple.JdbcClient;
import org.springframework.stereotype.Component;
import tools.jackson.databind.json.JsonMapper;

/**
 * The append-only record of who did what to which thing, from where, and what it was before and
 * after.
 */
@Component
public class ChangeHistory {

  private final JdbcClient jdbc;
  private final JsonMapper json;
  private final Clock clock;

  ChangeHistory(JdbcClient jdbc, JsonMapper json, Clock clock) {
    this.jdbc = jdbc;
    this.json = json;
    this.clock = clock;
  }

  /**
   * Writes one line; inside a transaction it stands or falls with the change itself.
   *
   * @param actor who and from where
   * @param action a verb of the trade, such as {@code added}, {@code changed}, {@code removed},
   *     {@code signed-in}; at most 40 characters
   * @param kind what sort of thing, such as {@code site}, {@code meter}, {@code person}; at most 40
   *     characters
   * @param code the thing's code; at most 200 characters
   * @param customerId whose thing it is, if it is one customer's
   * @param before the thing before, as a record or map that JSON can hold; null where it is new.
   *     Never a password, a token's secret or a hash
   * @param after the thing after; null where it is gone
   */
  public void record(
      Actor actor,
      String action,
      String kind,
      String code,
      @Nullable Long customerId,
      @Nullable Object before,
      @Nullable Object after) {
    jdbc.sql(
            """
            INSERT INTO account_change
              (changed_at, actor, source, action, thing_kind, thing_code, customer_id,
               before_json, after_json)
            VALUES (:at, :actor, :source, :action, :kind, :code, :customer, :before, :after)""")
        .param("at", OffsetDateTime.ofInstant(clock.instant(), ZoneOffset.UTC))
        .param("actor", actor.name())
        .param("source", actor.source())
        .param("action", action)
        .param("kind", kind)
        .param("code", code)
        .param("customer", customerId)
        .param("before", text(before))
        .param("after", text(after))
        .update();
  }

  private @Nullable String text(@Nullable Object state) {
    return state == null ? null : json.writeValueAsString(state);
  }
}
