package towerledger.meter;

import java.math.BigDecimal;
import java.sql.ResultSet;
import java.sql.SQLException;
import java.time.Duration;
import java.time.Instant;
import java.time.OffsetDateTime;
import java.time.ZoneOffset;
import java.util.ArrayList;
import java.util.Collection;
import java.util.HashMap;
import java.util.LinkedHashMap;
import java.util.List;
import java.util.Map;
import java.util.Objects;
import java.util.Optional;
import javax.sql.DataSource;
import org.springframework.jdbc.core.JdbcTemplate;
import org.springframework.jdbc.core.namedparam.NamedParameterJdbcTemplate;
import org.springframework.stereotype.Service;
import org.springframework.transaction.annotation.Transactional;
import towerledger.balance.facts.IntervalVolumes;
import towerledger.balance.facts.MeterFacts;
import towerledger.balance.facts.RegisterVolume;
import towerledger.quantity.Span;
import towerledger.query.Question;
import towerledger.site.Meter;
import towerledger.site.Sites;

/**
 * Reads what meters measured. Made for many systems at once: two queries for every few hundred
 * meters, whatever the number of systems. Interval volumes take 16 bytes each, so that a year of
 * 15-minute values of one meter takes half a megabyte; ask for so many systems at a time as fit.
 */
@Service
@Transactional(readOnly = true)
public class MeterRecords {

  private static final int METERS_A_QUERY = 500;
  private static final int ROWS_A_FETCH = 5000;

  /** The longest interval that the table takes; one may begin so much before the span. */
  private static final Duration LONGEST_INTERVAL = Duration.ofDays(32);

  /**
   * A span's readings with the nearest real ones around it, so that every volume that reaches into
   * the span is whole.
   */
  private static final String READINGS =
      """
      WITH bounds AS (
        SELECT meter_id,
          MAX(CASE WHEN read_at <= :from AND kind = 'actual' THEN read_at END) AS lower_at,
          MIN(CASE WHEN read_at >= :to AND kind = 'actual' THEN read_at END) AS upper_at
        FROM meter_register_reading
        WHERE meter_id IN (:meters)
        GROUP BY meter_id)
      SELECT r.meter_id, r.read_at, r.register, r.kind, r.give_or_take_hours, r.implausible
      FROM meter_register_reading r JOIN bounds b ON b.meter_id = r.meter_id
      WHERE r.meter_id IN (:meters)
        AND r.read_at >= COALESCE(b.lower_at, r.read_at)
        AND r.read_at <= COALESCE(b.upper_at, r.read_at)
      ORDER BY r.meter_id, r.read_at""";

  private static final String INTERVALS =
      """
      SELECT meter_id, start_at, minutes, volume_l
      FROM meter_interval_volume
      WHERE meter_id IN (:meters) AND start_at >= :earliest AND start_at < :to
        AND minutes > :longer
      ORDER BY meter_id, start_at""";

  /** No longer than an hour, begun in a span: two months of hours for one month are not needed. */
  private static final String HOURS =
      """
      SELECT meter_id, start_at, minutes, volume_l
      FROM meter_interval_volume
      WHERE meter_id IN (:meters) AND start_at >= :from AND start_at < :to AND minutes <= 60
      ORDER BY meter_id, start_at""";

  private final Sites sites;
  private final NamedParameterJdbcTemplate jdbc;

  MeterRecords(Sites sites, DataSource dataSource) {
    this.sites = sites;
    var template = new JdbcTemplate(dataSource);
    template.setFetchSize(ROWS_A_FETCH);
    this.jdbc = new NamedParameterJdbcTemplate(template);
  }

  /**
   * What the meters that count measured, for many systems, as a reconciliation takes it in.
   *
   * @param systemIds any number of systems
   * @param service service meters of their sites by site, which may be above them
   * @param span volumes that reach into it are wholly told; facts from outside may be among them
   * @return the meters of each system by code; a system without meters has an empty list
   */
  public Map<Long, List<MeterFacts>> listFacts(
      Collection<Long> systemIds, Map<Long, List<Meter>> service, Span span) {
    Map<Long, List<Meter>> meters = new HashMap<>(sites.listMeters(systemIds));
    meters.replaceAll(
        (system, own) ->
            MeterNetwork.of(own, service.getOrDefault(own.get(0).siteId(), List.of())).counted());
    Map<Long, MeterRecord> records =
        records(meters.values().stream().flatMap(List::stream).toList(), span);
    var facts = new HashMap<Long, List<MeterFacts>>();
    for (Long systemId : systemIds) {
      facts.put(
          systemId,
          meters.getOrDefault(systemId, List.of()).stream()
              .map(meter -> Objects.requireNonNull(records.get(meter.id())).facts())
              .toList());
    }
    return facts;
  }

  /** What each of some meters measured, by the meter's id, with everything there is to say. */
  public Map<Long, MeterRecord> records(Collection<Meter> meters, Span span) {
    var records = new LinkedHashMap<Long, MeterRecord>();
    var all = List.copyOf(meters);
    for (int from = 0; from < all.size(); from += METERS_A_QUERY) {
      List<Meter> some = all.subList(from, Math.min(all.size(), from + METERS_A_QUERY));
      List<Long> ids = some.stream().map(Meter::id).toList();
      Map<Long, List<RegisterReading>> readings = readings(ids, span);
      Map<Long, IntervalLog> logs = intervals(ids, span, 0);
      for (Meter meter : some) {
        records.put(
            meter.id(),
            MeterRecord.of(
                meter,
                readings.getOrDefault(meter.id(), List.of()),
                logs.getOrDefault(meter.id(), new IntervalLog())));
      }
    }
    return records;
  }

  /**
   * Volumes of an hour or less that begin in a span while the meter counted, by the meter's id; a
   * meter without any is left out.
   */
  public static Question<Map<Long, IntervalVolumes>> hours(List<Meter> meters, Span span) {
    return Question.named(
        HOURS,
        Map.of(
            "meters",
            meters.stream().map(Meter::id).toList(),
            "from",
            at(span.startInclusive()),
            "to",
            at(span.endExclusive())),
        rows -> hours(meters, rows));
  }

  private static Map<Long, IntervalVolumes> hours(List<Meter> meters, ResultSet rows)
      throws SQLException {
    var logs = new HashMap<Long, IntervalLog>();
    while (rows.next()) {
      logs.computeIfAbsent(rows.getLong(1), id -> new IntervalLog())
          .add(
              rows.getObject(2, OffsetDateTime.class).toEpochSecond(),
              rows.getInt(3),
              rows.getDouble(4));
    }
    var hours = new HashMap<Long, IntervalVolumes>();
    for (Meter meter : meters) {
      IntervalLog log = logs.get(meter.id());
      if (log != null) {
        hours.put(meter.id(), MeterRecord.hours(meter, log));
      }
    }
    return hours;
  }

  /** What one meter measured. */
  MeterRecord getRecord(Meter meter, Span span) {
    return records(List.of(meter), span).values().iterator().next();
  }

  /** Volumes of one meter between readings. */
  public List<RegisterVolume> listVolumesRead(Meter meter, Span span) {
    return MeterRecord.of(
            meter,
            readings(List.of(meter.id()), span).getOrDefault(meter.id(), List.of()),
            new IntervalLog())
        .facts()
        .registers();
  }

  /**
   * Volumes of one meter between readings, and of intervals longer than a day; of finer ones, a
   * year has thousands.
   */
  public List<RegisterVolume> listLongVolumes(Meter meter, Span span) {
    List<Long> id = List.of(meter.id());
    return MeterRecord.of(
            meter,
            readings(id, span).getOrDefault(meter.id(), List.of()),
            intervals(id, span, MeterRecord.LONGEST_INTERVAL_MINUTES)
                .getOrDefault(meter.id(), new IntervalLog()))
        .facts()
        .registers();
  }

  /** Readings of one meter in a span, oldest first. */
  public List<RegisterReading> listReadings(Meter meter, Span span) {
    return readings(List.of(meter.id()), span).getOrDefault(meter.id(), List.of()).stream()
        .filter(reading -> span.contains(reading.readAt()))
        .toList();
  }

  /** The last real reading of a meter before an instant. */
  public Optional<RegisterReading> findLastBefore(Meter meter, Instant instant) {
    return jdbc
        .query(
            """
            SELECT meter_id, read_at, register, kind, give_or_take_hours, implausible
            FROM meter_register_reading
            WHERE meter_id = :meter AND read_at < :at AND kind = 'actual'
            ORDER BY read_at DESC
            FETCH FIRST 1 ROW ONLY""",
            Map.of("meter", meter.id(), "at", at(instant)),
            (row, number) -> reading(row))
        .stream()
        .findFirst();
  }

  private Map<Long, List<RegisterReading>> readings(List<Long> meters, Span span) {
    var readings = new HashMap<Long, List<RegisterReading>>();
    jdbc.query(
        READINGS,
        Map.of("meters", meters, "from", at(span.startInclusive()), "to", at(span.endExclusive())),
        row -> {
          readings
              .computeIfAbsent(row.getLong("meter_id"), id -> new ArrayList<>())
              .add(reading(row));
        });
    return readings;
  }

  private static RegisterReading reading(ResultSet row) throws SQLException {
    BigDecimal register = row.getBigDecimal("register");
    return new RegisterReading(
        row.getObject("read_at", OffsetDateTime.class).toInstant(),
        register.signum() == 0 ? BigDecimal.ZERO : register.stripTrailingZeros(),
        RegisterReading.Kind.ofCode(row.getString("kind")),
        Duration.ofSeconds(Math.round(row.getDouble("give_or_take_hours") * 3600)),
        row.getBoolean("implausible"));
  }

  private Map<Long, IntervalLog> intervals(List<Long> meters, Span span, int longer) {
    var logs = new HashMap<Long, IntervalLog>();
    jdbc.query(
        INTERVALS,
        Map.of(
            "meters",
            meters,
            "earliest",
            at(span.startInclusive().minus(LONGEST_INTERVAL)),
            "to",
            at(span.endExclusive()),
            "longer",
            longer),
        row -> {
          long start = row.getObject(2, OffsetDateTime.class).toEpochSecond();
          int minutes = row.getInt(3);
          if (start + 60L * minutes > span.startInclusive().getEpochSecond()) {
            logs.computeIfAbsent(row.getLong(1), id -> new IntervalLog())
                .add(start, minutes, row.getDouble(4));
          }
        });
    return logs;
  }

  private static OffsetDateTime at(Instant instant) {
    return OffsetDateTime.ofInstant(instant, ZoneOffset.UTC);
  }
}
