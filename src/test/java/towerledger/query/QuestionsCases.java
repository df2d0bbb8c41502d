package towerledger.query;

import static org.assertj.core.api.Assertions.assertThat;
import static org.assertj.core.api.Assertions.assertThatThrownBy;

import java.time.LocalDate;
import java.util.List;
import java.util.Map;
import org.junit.jupiter.api.Test;
import org.springframework.beans.factory.annotation.Autowired;
import org.springframework.dao.DataAccessException;
import org.springframework.jdbc.core.simple.JdbcClient;
import org.springframework.transaction.annotation.Transactional;

/** Questions asked together have the answers that they have alone. */
abstract class QuestionsCases {

  private static final String NUMBERS =
      "SELECT n.a FROM (VALUES (1), (2), (3), (4)) AS n (a) WHERE n.a %s ORDER BY n.a";

  @Autowired Questions questions;
  @Autowired JdbcClient jdbc;

  private static Question<List<Integer>> above(int least) {
    return Question.rows(NUMBERS.formatted("> ?"), List.of(least), (row, n) -> row.getInt(1));
  }

  @Test
  void eachHasItsOwnParametersAndRows() {
    Question<List<Integer>> none = above(4);
    Question<List<Integer>> two = above(2);
    Question<Integer> sum = above(1).then(rows -> rows.stream().mapToInt(n -> n).sum());
    Question<List<Integer>> named =
        Question.named(
            NUMBERS.formatted("IN (:some) AND n.a < :most"),
            Map.of("most", 4, "some", List.of(1, 3, 4)),
            (row, n) -> row.getInt(1));
    LocalDate day = LocalDate.of(2026, 2, 28);
    Question<LocalDate> date =
        Question.rows(
                "SELECT CAST(? AS DATE)",
                List.of(day),
                (row, n) -> row.getObject(1, LocalDate.class))
            .then(rows -> rows.get(0));

    // often enough that the driver prepares them at the server
    for (int i = 0; i < 12; i++) {
      Answers answers = questions.ask(none, two, sum, named, date);

      assertThat(answers.to(none)).isEmpty();
      assertThat(answers.to(two)).containsExactly(3, 4);
      assertThat(answers.to(sum)).isEqualTo(9);
      assertThat(answers.to(named)).containsExactly(1, 3);
      assertThat(answers.to(date)).isEqualTo(day);
      assertThat(questions.answer(sum)).isEqualTo(9);
    }
  }

  @Test
  void nothingIsInAnEmptyList() {
    Question<List<Integer>> none =
        Question.named(
            NUMBERS.formatted("IN (:some)"), Map.of("some", List.of()), (row, n) -> row.getInt(1));

    assertThat(questions.ask(above(3), none).to(none)).isEmpty();
  }

  @Test
  @Transactional
  void theyAreAskedInTheTransactionOfWhoeverAsks() {
    String code = "questions-" + System.nanoTime();
    jdbc.sql("INSERT INTO account_customer (code, name, created_at) VALUES (?, 'Q', ?)")
        .params(code, java.sql.Timestamp.from(java.time.Instant.EPOCH))
        .update();
    Question<List<String>> name =
        Question.rows(
            "SELECT name FROM account_customer WHERE code = ?",
            List.of(code),
            (row, n) -> row.getString(1));

    assertThat(questions.ask(above(3), name).to(name)).containsExactly("Q");
  }

  @Test
  void oneThatFailsIsSaid() {
    Question<List<Integer>> good = above(1);
    Question<List<Integer>> bad =
        Question.rows("SELECT 1 / 0", List.of(), (row, number) -> row.getInt(1));

    assertThatThrownBy(() -> questions.ask(good, bad))
        .isInstanceOf(DataAccessException.class)
        .hasMessageContaining("zero");
    assertThatThrownBy(() -> questions.ask(good).to(bad)).hasMessageContaining("1 / 0");
    assertThat(questions.answer(good)).as("the connection is still good").hasSize(3);
  }
}
