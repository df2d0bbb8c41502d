package towerledger.meter;

import java.time.Instant;
import java.time.OffsetDateTime;
import java.time.ZoneOffset;
import java.util.Optional;
import org.springframework.jdbc.core.simple.JdbcClient;
import org.springframework.stereotype.Component;

/** How far news of a reading reaches: a volume lies between two readings, so to the next ones. */
@Component
public class ReadingNeighbours {

  private final JdbcClient jdbc;

  ReadingNeighbours(JdbcClient jdbc) {
    this.jdbc = jdbc;
  }

  /** When the meter was last read before an instant. */
  public Optional<Instant> before(long meterId, Instant instant) {
    return find(
        "SELECT MAX(read_at) FROM meter_register_reading WHERE meter_id = ? AND read_at < ?",
        meterId,
        instant);
  }

  /** When the meter was first read after an instant. */
  public Optional<Instant> after(long meterId, Instant instant) {
    return find(
        "SELECT MIN(read_at) FROM meter_register_reading WHERE meter_id = ? AND read_at > ?",
        meterId,
        instant);
  }

  private Optional<Instant> find(String sql, long meterId, Instant instant) {
    return jdbc.sql(sql)
        .param(meterId)
        .param(OffsetDateTime.ofInstant(instant, ZoneOffset.UTC))
        .query(
            (row, n) -> {
              OffsetDateTime value = row.getObject(1, OffsetDateTime.class);
              return value == null ? Optional.<Instant>empty() : Optional.of(value.toInstant());
            })
        .single();
  }
}
