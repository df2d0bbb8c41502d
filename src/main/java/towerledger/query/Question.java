package towerledger.query;

import java.util.ArrayList;
import java.util.Collection;
import java.util.Collections;
import java.util.List;
import java.util.Map;
import java.util.Objects;
import java.util.function.Function;
import org.jspecify.annotations.Nullable;
import org.springframework.jdbc.core.ResultSetExtractor;
import org.springframework.jdbc.core.RowMapper;
import org.springframework.jdbc.core.RowMapperResultSetExtractor;
import org.springframework.jdbc.core.namedparam.MapSqlParameterSource;
import org.springframework.jdbc.core.namedparam.NamedParameterUtils;

/**
 * A question to the database that is not asked yet, so that it can be asked together with others.
 *
 * @param sql one SELECT, with {@code ?} for each parameter
 * @param parameters values for them, in order
 * @param answer what is made of the rows
 * @param <T> what the answer is
 */
public record Question<T>(
    String sql, List<@Nullable Object> parameters, ResultSetExtractor<T> answer) {

  /** Its rows, in order. */
  public static <R> Question<List<R>> rows(
      String sql, List<? extends @Nullable Object> parameters, RowMapper<R> mapper) {
    return new Question<>(
        sql, new ArrayList<>(parameters), new RowMapperResultSetExtractor<>(mapper));
  }

  /**
   * The same with parameters by name; one that is a collection stands in a list of SQL, and nothing
   * is in an empty one.
   */
  public static <R> Question<List<R>> named(
      String sql, Map<String, ?> parameters, RowMapper<R> mapper) {
    return named(sql, parameters, new RowMapperResultSetExtractor<>(mapper));
  }

  /** The same for who makes something else of the rows. */
  public static <R> Question<R> named(
      String sql, Map<String, ?> parameters, ResultSetExtractor<R> answer) {
    var source = new MapSqlParameterSource();
    parameters.forEach((name, value) -> source.addValue(name, listed(value)));
    var parsed = NamedParameterUtils.parseSqlStatement(sql);
    List<@Nullable Object> values = new ArrayList<>();
    for (Object value : NamedParameterUtils.buildValueArray(parsed, source, null)) {
      if (value instanceof Collection<?> several) {
        values.addAll(several);
      } else {
        values.add(value);
      }
    }
    return new Question<>(
        NamedParameterUtils.substituteNamedParameters(parsed, source), values, answer);
  }

  /** SQL has no empty lists: nothing equals the NULL that stands in for one. */
  private static Object listed(Object value) {
    return value instanceof Collection<?> several && several.isEmpty()
        ? Collections.singletonList(null)
        : value;
  }

  /** The same question with its answer taken further. */
  public <R> Question<R> then(Function<T, R> step) {
    return new Question<>(
        sql, parameters, rows -> step.apply(Objects.requireNonNull(answer.extractData(rows))));
  }
}
