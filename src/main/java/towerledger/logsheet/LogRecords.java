package towerledger.logsheet;

import java.sql.ResultSet;
import java.sql.SQLException;
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
import org.jspecify.annotations.Nullable;
import org.slf4j.Logger;
import org.slf4j.LoggerFactory;
import org.springframework.jdbc.core.RowMapper;
import org.springframework.jdbc.core.namedparam.NamedParameterJdbcTemplate;
import org.springframework.stereotype.Service;
import org.springframework.transaction.annotation.Transactional;
import towerledger.balance.facts.HeatEvidence;
import towerledger.balance.facts.SupplyPressure;
import towerledger.balance.facts.Visit;
import towerledger.balance.facts.WaterSample;
import towerledger.quantity.Pressure;
import towerledger.quantity.Span;
import towerledger.query.Question;

/**
 * Reads the log sheets of many systems at once: one query for every few hundred systems. Systems
 * without rows have an empty list. Every list is in order of time.
 */
@Service
@Transactional(readOnly = true)
public class LogRecords {

  private static final Logger LOG = LoggerFactory.getLogger(LogRecords.class);
  private static final int SYSTEMS_A_QUERY = 500;

  private static final String PRESSURES =
      """
      SELECT system_id, taken_at, supply_kpa, valve_inlet_kpa FROM logsheet_pressure
      WHERE system_id IN (:systems) AND taken_at >= :from AND taken_at < :to
      ORDER BY system_id, taken_at""";

  private static final String VISITS =
      """
      SELECT system_id, visited_at, events, drained_l, findings,
        basin_conductivity_handheld_us_cm, basin_conductivity_controller_us_cm,
        basin_temperature_c, observation, work_done
      FROM logsheet_visit
      WHERE system_id IN (:systems) AND visited_at >= :from AND visited_at < :to
      ORDER BY system_id, visited_at""";

  private final NamedParameterJdbcTemplate jdbc;

  LogRecords(NamedParameterJdbcTemplate jdbc) {
    this.jdbc = jdbc;
  }

  /** Water samples taken in a span. */
  public Map<Long, List<WaterSample>> listSamples(Collection<Long> systemIds, Span span) {
    return list(
        """
        SELECT system_id, taken_at, makeup_conductivity_us_cm, basin_conductivity_us_cm,
          makeup_chloride_mg_l, basin_chloride_mg_l, makeup_calcium_mg_l_caco3,
          basin_calcium_mg_l_caco3
        FROM logsheet_water_sample
        WHERE system_id IN (:systems) AND taken_at >= :from AND taken_at < :to
        ORDER BY system_id, taken_at""",
        systemIds,
        span,
        (row, number) ->
            new WaterSample(
                instant(row, "taken_at"),
                positive(row, "makeup_conductivity_us_cm"),
                positive(row, "basin_conductivity_us_cm"),
                number(row, "makeup_chloride_mg_l"),
                number(row, "basin_chloride_mg_l"),
                number(row, "makeup_calcium_mg_l_caco3"),
                number(row, "basin_calcium_mg_l_caco3")));
  }

  /** Pressures read in a span. */
  public Map<Long, List<SupplyPressure>> listPressures(Collection<Long> systemIds, Span span) {
    return list(PRESSURES, systemIds, span, LogRecords::pressure);
  }

  /** Pressures read at one system in a span, as a question. */
  public static Question<List<SupplyPressure>> pressures(long systemId, Span span) {
    return ofOne(PRESSURES, systemId, span, LogRecords::pressure);
  }

  private static SupplyPressure pressure(ResultSet row, int number) throws SQLException {
    return new SupplyPressure(
        instant(row, "taken_at"), pascals(row, "supply_kpa"), pascals(row, "valve_inlet_kpa"));
  }

  /** Evidence of heat whose own span reaches into a span. */
  public Map<Long, List<HeatEvidence>> listHeat(Collection<Long> systemIds, Span span) {
    return list(
        """
        SELECT system_id, start_at, end_at, heat_rejected_gj, chilled_water_kwh, kw_per_ton,
          chiller_kwh, running_hours, average_load_percent, hot_water_c, cold_water_c,
          water_flow_l_s, error_percent
        FROM logsheet_heat_load
        WHERE system_id IN (:systems) AND end_at > :from AND start_at < :to
        ORDER BY system_id, start_at, end_at""",
        systemIds,
        span,
        (row, number) -> heatLoad(row).evidence());
  }

  /** Visits made in a span, as the ledger reckons with them. */
  public Map<Long, List<Visit>> listVisits(Collection<Long> systemIds, Span span) {
    var visits = new HashMap<Long, List<Visit>>();
    listVisitNotes(systemIds, span)
        .forEach(
            (system, notes) -> visits.put(system, notes.stream().map(VisitNote::visit).toList()));
    return visits;
  }

  /** Visits made in a span with the words written down. */
  public Map<Long, List<VisitNote>> listVisitNotes(Collection<Long> systemIds, Span span) {
    return list(VISITS, systemIds, span, LogRecords::visitNote);
  }

  /** Visits made to one system in a span, as a question. */
  public static Question<List<VisitNote>> visitNotes(long systemId, Span span) {
    return ofOne(VISITS, systemId, span, LogRecords::visitNote);
  }

  private static VisitNote visitNote(ResultSet row, int number) throws SQLException {
    return new VisitNote(
        new Visit(
            instant(row, "visited_at"),
            VisitCodes.parseEvents(text(row, "events").orElse("")),
            number(row, "drained_l"),
            VisitCodes.parseFindings(text(row, "findings").orElse("")),
            positive(row, "basin_conductivity_handheld_us_cm"),
            positive(row, "basin_conductivity_controller_us_cm"),
            number(row, "basin_temperature_c")),
        text(row, "observation"),
        text(row, "work_done"));
  }

  /** Columns by number: there may be one row for every hour. */
  private static HeatLoad heatLoad(ResultSet row) throws SQLException {
    return new HeatLoad(
        Span.of(
            row.getObject(2, OffsetDateTime.class).toInstant(),
            row.getObject(3, OffsetDateTime.class).toInstant()),
        number(row, 4),
        number(row, 5),
        number(row, 6),
        number(row, 7),
        number(row, 8),
        number(row, 9),
        number(row, 10),
        number(row, 11),
        number(row, 12),
        number(row, 13));
  }

  private <T> Map<Long, List<T>> list(
      String sql, Collection<Long> systemIds, Span span, RowMapper<T> mapper) {
    var bySystem = new HashMap<Long, List<T>>();
    systemIds.forEach(id -> bySystem.put(id, new ArrayList<>()));
    var ids = List.copyOf(bySystem.keySet());
    for (int from = 0; from < ids.size(); from += SYSTEMS_A_QUERY) {
      jdbc.query(
          sql,
          parameters(ids.subList(from, Math.min(ids.size(), from + SYSTEMS_A_QUERY)), span),
          row -> {
            T value = mapOrReport(row, mapper);
            if (value != null) {
              bySystem.computeIfAbsent(row.getLong(1), id -> new ArrayList<>()).add(value);
            }
          });
    }
    return bySystem;
  }

  private static <T> Question<List<T>> ofOne(
      String sql, long systemId, Span span, RowMapper<T> mapper) {
    return Question.named(
            sql,
            parameters(List.of(systemId), span),
            (row, number) -> Optional.ofNullable(mapOrReport(row, mapper)))
        .then(rows -> rows.stream().flatMap(Optional::stream).toList());
  }

  private static Map<String, Object> parameters(List<Long> systemIds, Span span) {
    return Map.of(
        "systems",
        systemIds,
        "from",
        OffsetDateTime.ofInstant(span.startInclusive(), ZoneOffset.UTC),
        "to",
        OffsetDateTime.ofInstant(span.endExclusive(), ZoneOffset.UTC));
  }

  /**
   * Rows are checked when they are taken in. One that got past (written by hand into the database)
   * must not keep a whole fleet from being reckoned: it is reported in the log and left out.
   */
  private static <T> @Nullable T mapOrReport(ResultSet row, RowMapper<T> mapper)
      throws SQLException {
    try {
      return mapper.mapRow(row, 0);
    } catch (IllegalArgumentException e) {
      LOG.warn(
          "A log row of system {} at {} is left out: {}",
          row.getLong(1),
          row.getString(2),
          e.getMessage());
      return null;
    }
  }

  private static Instant instant(ResultSet row, String column) throws SQLException {
    return row.getObject(column, OffsetDateTime.class).toInstant();
  }

  private static Optional<String> text(ResultSet row, String column) throws SQLException {
    return Optional.ofNullable(row.getString(column)).filter(text -> !text.isBlank());
  }

  private static OptionalDouble number(ResultSet row, String column) throws SQLException {
    return number(row, row.findColumn(column));
  }

  private static OptionalDouble number(ResultSet row, int column) throws SQLException {
    double value = row.getDouble(column);
    return row.wasNull() ? OptionalDouble.empty() : OptionalDouble.of(value);
  }

  /** A conductivity of 0 means an instrument out of the water: not known. */
  private static OptionalDouble positive(ResultSet row, String column) throws SQLException {
    OptionalDouble value = number(row, column);
    return value.isPresent() && value.getAsDouble() > 0 ? value : OptionalDouble.empty();
  }

  private static OptionalDouble pascals(ResultSet row, String column) throws SQLException {
    OptionalDouble value = number(row, column);
    return value.isPresent()
        ? OptionalDouble.of(Pressure.ofKilopascals(value.getAsDouble()).pascals())
        : value;
  }
}
