package towerledger.account;

import java.sql.ResultSet;
import java.sql.SQLException;
import java.time.Instant;
import java.time.OffsetDateTime;
import java.time.ZoneOffset;
import java.util.ArrayList;
import java.util.List;
import java.util.function.Consumer;
import java.util.stream.Stream;
import org.jspecify.annotations.Nullable;
import org.springframework.jdbc.core.simple.JdbcClient;
import org.springframework.stereotype.Component;
import org.springframework.transaction.annotation.Transactional;

/** Reads the record of changes, newest first. For the office: it names everybody's things. */
@Component
@Transactional(readOnly = true)
public class HistorySearch {

  /**
   * One change.
   *
   * @param at when
   * @param actor who
   * @param source from where
   * @param action what was done
   * @param kind sort of thing
   * @param code its code
   * @param before the thing before as JSON; empty where it was new or nothing is kept
   * @param after the thing after as JSON; empty where it is gone or nothing is kept
   */
  public record Change(
      Instant at,
      String actor,
      String source,
      String action,
      String kind,
      String code,
      String before,
      String after) {}

  private record Condition(String sql, List<Object> parameters) {}

  private final JdbcClient jdbc;

  HistorySearch(JdbcClient jdbc) {
    this.jdbc = jdbc;
  }

  /** How many changes pass. */
  public long count(HistoryFilter filter) {
    Condition where = where(filter);
    return jdbc.sql("SELECT COUNT(*) FROM account_change" + where.sql())
        .params(where.parameters())
        .query(Long.class)
        .single();
  }

  /** Some of the changes that pass, newest first. */
  public List<Change> page(HistoryFilter filter, int offset, int limit) {
    Condition where = where(filter);
    List<Object> parameters = new ArrayList<>(where.parameters());
    parameters.add(offset);
    parameters.add(limit);
    return jdbc.sql(
            "SELECT * FROM account_change"
                + where.sql()
                + " ORDER BY changed_at DESC, id DESC OFFSET ? ROWS FETCH NEXT ? ROWS ONLY")
        .params(parameters)
        .query((row, number) -> change(row))
        .list();
  }

  /** Hands all changes that pass to a consumer, newest first; nothing is held in memory. */
  public void forEach(HistoryFilter filter, Consumer<Change> consumer) {
    Condition where = where(filter);
    try (Stream<Change> rows =
        jdbc
            .sql(
                "SELECT * FROM account_change" + where.sql() + " ORDER BY changed_at DESC, id DESC")
            .withFetchSize(1000)
            .params(where.parameters())
            .query((row, number) -> change(row))
            .stream()) {
      rows.forEach(consumer);
    }
  }

  /** Every action there is in the record. */
  public List<String> actions() {
    return jdbc.sql("SELECT DISTINCT action FROM account_change ORDER BY action")
        .query(String.class)
        .list();
  }

  /** Every sort of thing there is in the record. */
  public List<String> kinds() {
    return jdbc.sql("SELECT DISTINCT thing_kind FROM account_change ORDER BY thing_kind")
        .query(String.class)
        .list();
  }

  private static Condition where(HistoryFilter filter) {
    StringBuilder sql = new StringBuilder(" WHERE 1 = 1");
    List<Object> parameters = new ArrayList<>();
    add(sql, parameters, " AND LOWER(actor) LIKE ? ESCAPE '!'", part(filter.actor()));
    add(sql, parameters, " AND action = ?", whole(filter.action()));
    add(sql, parameters, " AND thing_kind = ?", whole(filter.kind()));
    add(sql, parameters, " AND LOWER(thing_code) LIKE ? ESCAPE '!'", part(filter.code()));
    add(sql, parameters, " AND changed_at >= ?", at(filter.fromInclusive()));
    add(sql, parameters, " AND changed_at < ?", at(filter.toExclusive()));
    return new Condition(sql.toString(), parameters);
  }

  private static void add(
      StringBuilder sql, List<Object> parameters, String condition, @Nullable Object parameter) {
    if (parameter != null) {
      sql.append(condition);
      parameters.add(parameter);
    }
  }

  private static @Nullable Object part(String text) {
    return text.isBlank() ? null : "%" + Likeness.escaped(text.strip()) + "%";
  }

  private static @Nullable Object whole(String text) {
    return text.isBlank() ? null : text;
  }

  private static @Nullable Object at(@Nullable Instant instant) {
    return instant == null ? null : OffsetDateTime.ofInstant(instant, ZoneOffset.UTC);
  }

  private static Change change(ResultSet row) throws SQLException {
    return new Change(
        row.getObject("changed_at", OffsetDateTime.class).toInstant(),
        row.getString("actor"),
        row.getString("source"),
        row.getString("action"),
        row.getString("thing_kind"),
        row.getString("thing_code"),
        orEmpty(row.getString("before_json")),
        orEmpty(row.getString("after_json")));
  }

  private static String orEmpty(@Nullable String text) {
    return text == null ? "" : text;
  }
}
