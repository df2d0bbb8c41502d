package towerledger.meter;

import java.time.Duration;
import java.time.Instant;
import java.time.OffsetDateTime;
import java.time.ZoneOffset;
import java.util.ArrayList;
import java.util.Collection;
import java.util.HashMap;
import java.util.List;
import java.util.Map;
import java.util.Optional;
import java.util.OptionalDouble;
import java.util.OptionalInt;
import org.jspecify.annotations.Nullable;
import org.springframework.jdbc.core.simple.JdbcClient;
import org.springframework.stereotype.Service;
import org.springframework.transaction.annotation.Transactional;
import towerledger.balance.facts.IntervalVolumes;
import towerledger.quantity.Span;
import towerledger.site.Meter;
import towerledger.site.MeterDetails;

/** Reads what meters measured, for many meters at once, as volumes between readings. */
@Service
@Transactional(readOnly = true)
public class MeterVolumes {

  private final JdbcClient jdbc;

  MeterVolumes(JdbcClient jdbc) {
    this.jdbc = jdbc;
  }

  /**
   * What one meter measured.
   *
   * @param register volumes between register readings
   * @param intervals volumes by the interval, in order and without overlap
   */
  public record Measured(MeasuredRegister register, IntervalVolumes intervals) {}

  /**
   * What meters measured within a span. The last reading before it and the first after it are used
   * too, so that the volume at its edges is known.
   *
   * @return an entry for every meter given, by its identity
   */
  public Map<Long, Measured> measured(Collection<Meter> meters, Span span) {
    Map<Long, Measured> result = new HashMap<>();
    if (meters.isEmpty()) {
      return result;
    }
    List<Long> ids = meters.stream().map(Meter::id).toList();
    Map<Long, List<RegisterReading>> readings = readings(ids, span);
    Map<Long, IntervalLog> intervals = intervals(ids, span);
    for (Meter meter : meters) {
      result.put(
          meter.id(),
          new Measured(
              RegisterArithmetic.measure(
                  register(meter), readings.getOrDefault(meter.id(), List.of())),
              intervals.containsKey(meter.id())
                  ? intervals.get(meter.id()).tidy().volumes()
                  : IntervalVolumes.none()));
    }
    return result;
  }

  /** The register of a meter on file. */
  static Register register(Meter meter) {
    MeterDetails details = meter.details();
    return new Register(
        meter.code(),
        details.litresPerCount(),
        details.registerDigits() == null
            ? OptionalInt.empty()
            : OptionalInt.of(details.registerDigits()),
        MeterAccuracy.of(details).greatestFlowLitresPerSecond(),
        mark(details.installedAt(), details.firstRegister()),
        mark(details.removedAt(), details.lastRegister()));
  }

  private static Register.Mark mark(@Nullable Instant at, java.math.@Nullable BigDecimal register) {
    return new Register.Mark(Optional.ofNullable(at), Optional.ofNullable(register));
  }

  private Map<Long, List<RegisterReading>> readings(List<Long> meterIds, Span span) {
    Map<Long, List<RegisterReading>> byMeter = new HashMap<>();
    jdbc.sql(
            """
            SELECT r.meter_id, r.read_at, r.register, r.kind, r.give_or_take_hours, r.implausible
            FROM meter_register_reading r
            WHERE r.meter_id IN (:meters)
              AND r.read_at >= COALESCE((SELECT MAX(b.read_at) FROM meter_register_reading b
                WHERE b.meter_id = r.meter_id AND b.read_at < :start), :start)
              AND r.read_at <= COALESCE((SELECT MIN(a.read_at) FROM meter_register_reading a
                WHERE a.meter_id = r.meter_id AND a.read_at >= :end), :end)
            ORDER BY r.meter_id, r.read_at""")
        .param("meters", meterIds)
        .param("start", OffsetDateTime.ofInstant(span.startInclusive(), ZoneOffset.UTC))
        .param("end", OffsetDateTime.ofInstant(span.endExclusive(), ZoneOffset.UTC))
        .query(
            row -> {
              byMeter
                  .computeIfAbsent(row.getLong(1), id -> new ArrayList<>())
                  .add(
                      new RegisterReading(
                          row.getObject(2, OffsetDateTime.class).toInstant(),
                          row.getBigDecimal(3),
                          RegisterReading.Kind.ofCode(row.getString(4)),
                          Duration.ofSeconds(Math.round(row.getDouble(5) * 3600)),
                          row.getBoolean(6)));
            });
    return byMeter;
  }

  private Map<Long, IntervalLog> intervals(List<Long> meterIds, Span span) {
    Map<Long, IntervalLog> byMeter = new HashMap<>();
    jdbc.sql(
            """
            SELECT meter_id, start_at, minutes, volume_l FROM meter_interval_volume
            WHERE meter_id IN (:meters) AND start_at >= :start AND start_at < :end
            ORDER BY meter_id, start_at""")
        .param("meters", meterIds)
        .param("start", OffsetDateTime.ofInstant(span.startInclusive(), ZoneOffset.UTC))
        .param("end", OffsetDateTime.ofInstant(span.endExclusive(), ZoneOffset.UTC))
        .query(
            row -> {
              byMeter
                  .computeIfAbsent(row.getLong(1), id -> new IntervalLog())
                  .add(
                      row.getObject(2, OffsetDateTime.class).toEpochSecond(),
                      row.getInt(3),
                      row.getDouble(4));
            });
    return byMeter;
  }

  /** Accuracy in normal flow as a fraction, from the meter's own figure or its class. */
  public static OptionalDouble accuracyFraction(Meter meter) {
    return MeterAccuracy.of(meter.details()).fraction();
  }
}
