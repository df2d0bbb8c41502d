package towerledger.bulk;

import java.sql.Connection;
import java.sql.SQLException;
import java.time.Clock;
import java.time.Instant;
import java.time.temporal.ChronoUnit;
import java.util.concurrent.atomic.AtomicReference;
import javax.sql.DataSource;
import org.jspecify.annotations.Nullable;
import org.springframework.stereotype.Component;
import tools.jackson.databind.json.JsonMapper;

/** Opens loads of bulk tables in whatever database the program runs on. */
@Component
public class BulkLoader {

  private final DataSource dataSource;
  private final JsonMapper json;
  private final Clock clock;
  private final AtomicReference<Instant> lastMoment = new AtomicReference<>(Instant.EPOCH);
  private volatile @Nullable RowInsert insert;

  BulkLoader(DataSource dataSource, JsonMapper json, Clock clock) {
    this.dataSource = dataSource;
    this.json = json;
    this.clock = clock;
  }

  /**
   * Begins a load.
   *
   * @param table where the rows go
   * @param repeated whether the same rows may have been loaded before: then a row whose value was
   *     corrected since leaves the correction standing
   */
  public BulkLoad open(BulkTable table, boolean repeated) {
    return new BulkLoad(table, repeated, dataSource, insert(), json, this::nextMoment);
  }

  /** Moments that never repeat, so that corrections of one row within one load keep their order. */
  private Instant nextMoment() {
    Instant now = clock.instant().truncatedTo(ChronoUnit.MICROS);
    return lastMoment.updateAndGet(
        last -> now.isAfter(last) ? now : last.plus(1, ChronoUnit.MICROS));
  }

  private RowInsert insert() {
    RowInsert known = insert;
    if (known == null) {
      known = isPostgres() ? new PostgresCopy() : new H2Batch();
      insert = known;
    }
    return known;
  }

  private boolean isPostgres() {
    try (Connection connection = dataSource.getConnection()) {
      return connection.getMetaData().getDatabaseProductName().equals("PostgreSQL");
    } catch (SQLException e) {
      throw new IllegalStateException("could not ask the database what it is", e);
    }
  }
}
