package towerledger.bulk;

import java.math.BigDecimal;
import java.sql.PreparedStatement;
import java.sql.ResultSet;
import java.sql.SQLException;
import java.sql.Types;
import java.time.Instant;
import java.time.LocalDate;
import java.time.OffsetDateTime;
import java.time.ZoneOffset;
import org.jspecify.annotations.Nullable;

/** Types of columns of bulk tables, with the Java type a cell has in memory. */
public enum BulkType {
  /** {@link Long}. */
  BIGINT("bigint", Types.BIGINT),
  /** {@link Short}. */
  SMALLINT("smallint", Types.SMALLINT),
  /** {@link Integer}. */
  INTEGER("integer", Types.INTEGER),
  /** {@link Double}. */
  DOUBLE("float8", Types.DOUBLE),
  /** {@link BigDecimal}; equal when the numbers are, whatever the zeros at the end. */
  DECIMAL("numeric", Types.NUMERIC),
  /** {@link String}. */
  TEXT("text", Types.VARCHAR),
  /** {@link Boolean}. */
  BOOLEAN("boolean", Types.BOOLEAN),
  /** {@link Instant} to the microsecond. */
  INSTANT("timestamptz", Types.TIMESTAMP_WITH_TIMEZONE),
  /** {@link LocalDate}. */
  DATE("date", Types.DATE);

  private final String postgresName;
  private final int jdbcType;

  BulkType(String postgresName, int jdbcType) {
    this.postgresName = postgresName;
    this.jdbcType = jdbcType;
  }

  String postgresName() {
    return postgresName;
  }

  /** A cell as JDBC drivers of both databases take it. */
  Object jdbcValue(Object cell) {
    return cell instanceof Instant instant
        ? OffsetDateTime.ofInstant(instant, ZoneOffset.UTC)
        : cell;
  }

  void set(PreparedStatement statement, int index, @Nullable Object cell) throws SQLException {
    if (cell == null) {
      statement.setNull(index, jdbcType);
    } else {
      switch (this) {
        case BIGINT -> statement.setLong(index, (Long) cell);
        case DOUBLE -> statement.setDouble(index, (Double) cell);
        case SMALLINT -> statement.setShort(index, (Short) cell);
        case TEXT -> statement.setString(index, (String) cell);
        default -> statement.setObject(index, jdbcValue(cell), jdbcType);
      }
    }
  }

  @Nullable Object get(ResultSet result, int index) throws SQLException {
    return switch (this) {
      case BIGINT -> nullable(result.getLong(index), result);
      case SMALLINT -> nullable(result.getShort(index), result);
      case INTEGER -> nullable(result.getInt(index), result);
      case DOUBLE -> nullable(result.getDouble(index), result);
      case DECIMAL -> result.getBigDecimal(index);
      case TEXT -> result.getString(index);
      case BOOLEAN -> nullable(result.getBoolean(index), result);
      case INSTANT -> {
        OffsetDateTime value = result.getObject(index, OffsetDateTime.class);
        yield value == null ? null : value.toInstant();
      }
      case DATE -> result.getObject(index, LocalDate.class);
    };
  }

  private static @Nullable Object nullable(Object value, ResultSet result) throws SQLException {
    return result.wasNull() ? null : value;
  }

  /** Whether two known cells say the same. */
  boolean same(Object one, Object other) {
    return this == DECIMAL
        ? ((BigDecimal) one).compareTo((BigDecimal) other) == 0
        : one.equals(other);
  }

  /** A cell in the form in which equal cells are equal objects. */
  Object canonical(Object cell) {
    return this == DECIMAL ? ((BigDecimal) cell).stripTrailingZeros() : cell;
  }
}
