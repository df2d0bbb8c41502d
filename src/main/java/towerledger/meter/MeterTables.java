package towerledger.meter;

import static towerledger.bulk.BulkColumn.companion;
import static towerledger.bulk.BulkColumn.key;
import static towerledger.bulk.BulkColumn.usually;
import static towerledger.bulk.BulkColumn.value;

import java.math.BigDecimal;
import java.time.Instant;
import org.jspecify.annotations.Nullable;
import towerledger.bulk.BulkTable;
import towerledger.bulk.BulkType;
import towerledger.bulk.Corrections;

/** The tables that readings and interval volumes are loaded into, and rows for them. */
public final class MeterTables {

  /** What registers showed; one row a meter and instant. */
  public static final BulkTable REGISTER_READING =
      BulkTable.of(
          "meter_register_reading",
          Corrections.columns(
              "meter_register_correction",
              "customer_id",
              "meter_id",
              "read_at",
              "register",
              "kind",
              "note",
              "recorded_at",
              "recorded_by"),
          companion("customer_id", BulkType.BIGINT),
          key("meter_id", BulkType.BIGINT),
          key("read_at", BulkType.INSTANT),
          value("register", BulkType.DECIMAL),
          usually("kind", BulkType.TEXT, RegisterReading.Kind.ACTUAL.code()),
          value("give_or_take_hours", BulkType.DOUBLE),
          value("note", BulkType.TEXT),
          usually("implausible", BulkType.BOOLEAN, false),
          companion("recorded_at", BulkType.INSTANT),
          companion("recorded_by", BulkType.TEXT));

  /** Volumes of fixed steps; one row a meter and start. */
  public static final BulkTable INTERVAL_VOLUME =
      BulkTable.of(
          "meter_interval_volume",
          Corrections.columns(
              "meter_interval_correction",
              "customer_id",
              "meter_id",
              "start_at",
              "minutes",
              "volume_l"),
          companion("customer_id", BulkType.BIGINT),
          key("meter_id", BulkType.BIGINT),
          key("start_at", BulkType.INSTANT),
          value("minutes", BulkType.INTEGER),
          value("volume_l", BulkType.DOUBLE));

  private MeterTables() {}

  /**
   * A reading as a row of {@link #REGISTER_READING}.
   *
   * @param register counts shown, 0 or more, at most 6 decimals
   * @param kind null where it is not told: actual, unless the same reading is known otherwise
   * @param giveOrTakeHours how far the instant may be off, hours
   * @param implausible whether it lay outside what was expected; null where it is not told: not,
   *     unless the same reading is known otherwise
   */
  public static @Nullable Object[] reading(
      long customerId,
      long meterId,
      Instant readAt,
      BigDecimal register,
      RegisterReading.@Nullable Kind kind,
      double giveOrTakeHours,
      @Nullable String note,
      @Nullable Boolean implausible,
      Instant recordedAt,
      String recordedBy) {
    return new @Nullable Object[] {
      customerId,
      meterId,
      readAt,
      register,
      kind == null ? null : kind.code(),
      giveOrTakeHours,
      note,
      implausible,
      recordedAt,
      recordedBy
    };
  }

  /**
   * An interval as a row of {@link #INTERVAL_VOLUME}.
   *
   * @param minutes 1 to 46,080 (32 days)
   * @param litres 0 or more
   */
  public static @Nullable Object[] interval(
      long customerId, long meterId, Instant startAt, int minutes, double litres) {
    return new @Nullable Object[] {customerId, meterId, startAt, minutes, litres};
  }
}
