package towerledger.query;

import java.sql.Connection;
import java.sql.PreparedStatement;
import java.sql.ResultSet;
import java.sql.SQLException;
import java.util.Arrays;
import java.util.List;
import java.util.Objects;
import java.util.stream.Collectors;
import org.jspecify.annotations.Nullable;
import org.springframework.jdbc.core.ConnectionCallback;
import org.springframework.jdbc.core.JdbcTemplate;
import org.springframework.jdbc.core.SqlTypeValue;
import org.springframework.jdbc.core.StatementCreatorUtils;
import org.springframework.stereotype.Component;

/**
 * Asks several questions at once. PostgreSQL is sent all of them and then waited for once: its
 * driver takes several statements in one, each with its own plan and its own rows. The embedded
 * database answers in this process, one after the other: there is no way to save.
 *
 * <p>In the transaction of the caller, if there is one; each question sees what was committed when
 * it began, in the order in which they are given.
 */
@Component
public class Questions {

  private final JdbcTemplate jdbc;

  Questions(JdbcTemplate jdbc) {
    this.jdbc = jdbc;
  }

  /** The answer to one question. */
  public <T> T answer(Question<T> question) {
    return ask(question).to(question);
  }

  /** The answers to some questions. */
  public Answers ask(Question<?>... questions) {
    List<Question<?>> all = Arrays.asList(questions);
    return Objects.requireNonNull(
        jdbc.execute(
            (ConnectionCallback<Answers>)
                connection -> {
                  Answers answers = new Answers();
                  if (isPostgres(connection)) {
                    ask(connection, all, answers);
                  } else {
                    for (Question<?> question : all) {
                      ask(connection, List.of(question), answers);
                    }
                  }
                  return answers;
                }));
  }

  private static boolean isPostgres(Connection connection) throws SQLException {
    return connection.getMetaData().getDatabaseProductName().equals("PostgreSQL");
  }

  private static void ask(Connection connection, List<Question<?>> questions, Answers answers)
      throws SQLException {
    String sql = questions.stream().map(Question::sql).collect(Collectors.joining(";\n"));
    try (PreparedStatement statement = connection.prepareStatement(sql)) {
      int index = 0;
      for (Question<?> question : questions) {
        for (Object parameter : question.parameters()) {
          index++;
          set(statement, index, parameter);
        }
      }
      statement.execute();
      for (Question<?> question : questions) {
        try (ResultSet rows = statement.getResultSet()) {
          answers.put(question, Objects.requireNonNull(question.answer().extractData(rows)));
        }
        statement.getMoreResults();
      }
    }
  }

  private static void set(PreparedStatement statement, int index, @Nullable Object value)
      throws SQLException {
    StatementCreatorUtils.setParameterValue(statement, index, SqlTypeValue.TYPE_UNKNOWN, value);
  }
}
