package towerledger.site;

import java.time.Instant;
import java.time.OffsetDateTime;
import java.time.ZoneOffset;
import java.util.Map;
import java.util.TreeMap;
import org.springframework.jdbc.core.JdbcTemplate;
import org.springframework.stereotype.Service;
import org.springframework.transaction.annotation.Propagation;
import org.springframework.transaction.annotation.Transactional;

/**
 * When each meter was last read, kept beside the meter for lists that begin with what is longest
 * unread. Whoever takes readings tells it in the same transaction; readings are never taken away.
 */
@Service
public class LastReadings {

  /** Stands for never. */
  public static final Instant NEVER = Instant.parse("1900-01-01T00:00:00Z");

  private final JdbcTemplate jdbc;

  LastReadings(JdbcTemplate jdbc) {
    this.jdbc = jdbc;
  }

  /** Takes notice of the newest of some readings of each meter; an older one changes nothing. */
  @Transactional(propagation = Propagation.MANDATORY)
  public void tell(Map<Long, Instant> newestByMeter) {
    // by number, so that two at once never wait for each other
    jdbc.batchUpdate(
        "UPDATE site_meter SET last_read_at = ? WHERE id = ? AND last_read_at < ?",
        new TreeMap<>(newestByMeter).entrySet(),
        500,
        (s, reading) -> {
          OffsetDateTime at = OffsetDateTime.ofInstant(reading.getValue(), ZoneOffset.UTC);
          s.setObject(1, at);
          s.setLong(2, reading.getKey());
          s.setObject(3, at);
        });
  }
}
