package towerledger.account;

import java.time.Clock;
import java.time.Instant;
import java.time.OffsetDateTime;
import java.time.ZoneOffset;
import java.util.HashMap;
import java.util.List;
import java.util.Map;
import org.springframework.dao.DuplicateKeyException;
import org.springframework.jdbc.core.simple.JdbcClient;
import org.springframework.stereotype.Component;

/** Letters to people that the mail server did not take, for the office to see. */
@Component
public class LetterTroubles {

  private final JdbcClient jdbc;
  private final Clock clock;

  LetterTroubles(JdbcClient jdbc, Clock clock) {
    this.jdbc = jdbc;
    this.clock = clock;
  }

  /**
   * A letter that did not go out.
   *
   * @param since when it was first not taken
   * @param said what the mail server, or whoever failed before it, said last; foreign text
   * @param givenUp whether it is not tried again
   */
  public record Trouble(Instant since, String said, boolean givenUp) {}

  /** The troubles of these people, by their key; nothing for whom letters reach. */
  public Map<Long, Trouble> of(List<Long> people) {
    Map<Long, Trouble> troubles = new HashMap<>();
    if (!people.isEmpty()) {
      jdbc.sql("SELECT * FROM account_letter_trouble WHERE person_id IN (:people)")
          .param("people", people)
          .query(
              row -> {
                troubles.put(
                    row.getLong("person_id"),
                    new Trouble(
                        row.getObject("since", OffsetDateTime.class).toInstant(),
                        row.getString("said"),
                        row.getBoolean("given_up")));
              });
    }
    return troubles;
  }

  /** Keeps what was said last and when it began. */
  void note(long person, String said, boolean givenUp) {
    int known =
        jdbc.sql("UPDATE account_letter_trouble SET said = ?, given_up = ? WHERE person_id = ?")
            .params(said, givenUp, person)
            .update();
    if (known == 0) {
      try {
        jdbc.sql(
                """
                INSERT INTO account_letter_trouble (person_id, since, said, given_up)
                VALUES (?, ?, ?, ?)""")
            .params(
                person, OffsetDateTime.ofInstant(clock.instant(), ZoneOffset.UTC), said, givenUp)
            .update();
      } catch (DuplicateKeyException anotherLetter) {
        note(person, said, givenUp);
      }
    }
  }

  /** Forgets what was, as a letter was taken or a new one is on its way. */
  void forget(long person) {
    jdbc.sql("DELETE FROM account_letter_trouble WHERE person_id = ?").param(person).update();
  }
}
