package towerledger.logsheet;

import java.sql.ResultSet;
import java.sql.SQLException;
import java.time.Instant;
import java.time.OffsetDateTime;
import java.time.ZoneOffset;
import java.util.ArrayList;
import java.util.Arrays;
import java.util.Collection;
import java.util.EnumSet;
import java.util.HashMap;
import java.util.List;
import java.util.Locale;
import java.util.Map;
import java.util.Optional;
import java.util.OptionalDouble;
import java.util.Set;
import java.util.stream.Collectors;
import org.jspecify.annotations.Nullable;
import org.springframework.jdbc.core.simple.JdbcClient;
import org.springframework.stereotype.Service;
import org.springframework.transaction.annotation.Transactional;
import towerledger.balance.facts.HeatEvidence;
import towerledger.balance.facts.InspectionFinding;
import towerledger.balance.facts.SupplyPressure;
import towerledger.balance.facts.Visit;
import towerledger.balance.facts.WaterSample;
import towerledger.quantity.Heat;
import towerledger.quantity.Span;

/** Reads what people wrote down at the towers, for many systems at once. */
@Service
@Transactional(readOnly = true)
public class Logbook {

  private final JdbcClient jdbc;

  Logbook(JdbcClient jdbc) {
    this.jdbc = jdbc;
  }

  /** Water samples taken within a span, by system. */
  public Map<Long, List<WaterSample>> samples(Collection<Long> systemIds, Span span) {
    return read(
        "SELECT * FROM logsheet_water_sample WHERE system_id IN (:systems)"
            + " AND taken_at >= :start AND taken_at < :end",
        systemIds,
        span,
        row ->
            new WaterSample(
                instant(row, "taken_at"),
                positive(row, "makeup_conductivity_us_cm"),
                positive(row, "basin_conductivity_us_cm"),
                number(row, "makeup_chloride_mg_l"),
                number(row, "basin_chloride_mg_l"),
                number(row, "makeup_calcium_mg_l_caco3"),
                number(row, "basin_calcium_mg_l_caco3")));
  }

  /** Pressures read within a span, by system. */
  public Map<Long, List<SupplyPressure>> pressures(Collection<Long> systemIds, Span span) {
    return read(
        "SELECT * FROM logsheet_pressure WHERE system_id IN (:systems)"
            + " AND taken_at >= :start AND taken_at < :end",
        systemIds,
        span,
        row ->
            new SupplyPressure(
                instant(row, "taken_at"),
                scaled(number(row, "supply_kpa"), 1000),
                scaled(number(row, "valve_inlet_kpa"), 1000)));
  }

  /** Heat loads that overlap a span, by system. */
  public Map<Long, List<HeatEvidence>> heatLoads(Collection<Long> systemIds, Span span) {
    return read(
        "SELECT * FROM logsheet_heat_load WHERE system_id IN (:systems)"
            + " AND end_at > :start AND start_at < :end",
        systemIds,
        span,
        Logbook::heat);
  }

  /** Visits within a span, by system. */
  public Map<Long, List<Visit>> visits(Collection<Long> systemIds, Span span) {
    return read(
        "SELECT * FROM logsheet_visit WHERE system_id IN (:systems)"
            + " AND visited_at >= :start AND visited_at < :end",
        systemIds,
        span,
        row ->
            new Visit(
                instant(row, "visited_at"),
                events(row.getString("events")),
                number(row, "drained_l"),
                findings(row.getString("findings")),
                positive(row, "basin_conductivity_handheld_us_cm"),
                positive(row, "basin_conductivity_controller_us_cm"),
                number(row, "basin_temperature_c")));
  }

  private interface Reader<T> {
    T read(ResultSet row) throws SQLException;
  }

  private <T> Map<Long, List<T>> read(
      String sql, Collection<Long> systemIds, Span span, Reader<? extends T> reader) {
    Map<Long, List<T>> bySystem = new HashMap<>();
    if (systemIds.isEmpty()) {
      return bySystem;
    }
    jdbc.sql(sql)
        .param("systems", systemIds)
        .param("start", OffsetDateTime.ofInstant(span.startInclusive(), ZoneOffset.UTC))
        .param("end", OffsetDateTime.ofInstant(span.endExclusive(), ZoneOffset.UTC))
        .query(
            row -> {
              bySystem
                  .computeIfAbsent(row.getLong("system_id"), id -> new ArrayList<>())
                  .add(reader.read(row));
            });
    return bySystem;
  }

  private static HeatEvidence heat(ResultSet row) throws SQLException {
    Span span = Span.of(instant(row, "start_at"), instant(row, "end_at"));
    OptionalDouble error = scaled(number(row, "error_percent"), 0.01);
    OptionalDouble kwPerTon = positive(row, "kw_per_ton");
    OptionalDouble rejected = number(row, "heat_rejected_gj");
    if (rejected.isPresent()) {
      return new HeatEvidence.HeatRejected(span, rejected.getAsDouble() * 1e9, error);
    }
    OptionalDouble chilled = number(row, "chilled_water_kwh");
    if (chilled.isPresent()) {
      return new HeatEvidence.ChilledWater(
          span, Heat.ofKilowattHours(chilled.getAsDouble()).joules(), kwPerTon, error);
    }
    OptionalDouble chiller = number(row, "chiller_kwh");
    if (chiller.isPresent()) {
      return new HeatEvidence.ChillerElectricity(
          span,
          Heat.ofKilowattHours(chiller.getAsDouble()).joules(),
          kwPerTon.orElseThrow(),
          error);
    }
    OptionalDouble hours = number(row, "running_hours");
    if (hours.isPresent()) {
      return new HeatEvidence.RunningHours(
          span,
          hours.getAsDouble(),
          number(row, "average_load_percent").orElseThrow() / 100,
          error);
    }
    // One litre of tower water is one kilogram within 0.5 % between 10 and 40 °C.
    return new HeatEvidence.WaterTemperatures(
        span,
        number(row, "hot_water_c").orElseThrow(),
        number(row, "cold_water_c").orElseThrow(),
        number(row, "water_flow_l_s").orElseThrow(),
        error);
  }

  private static Set<Visit.Event> events(@Nullable String codes) {
    return parts(codes).stream()
        .map(code -> Visit.Event.valueOf(code.toUpperCase(Locale.ROOT).replace('-', '_')))
        .collect(Collectors.toCollection(() -> EnumSet.noneOf(Visit.Event.class)));
  }

  private static Set<InspectionFinding> findings(@Nullable String codes) {
    return parts(codes).stream()
        .map(InspectionFinding::find)
        .flatMap(Optional::stream)
        .collect(Collectors.toCollection(() -> EnumSet.noneOf(InspectionFinding.class)));
  }

  private static List<String> parts(@Nullable String joined) {
    return joined == null
        ? List.of()
        : Arrays.stream(joined.split(";")).map(String::strip).filter(s -> !s.isEmpty()).toList();
  }

  private static Instant instant(ResultSet row, String column) throws SQLException {
    return row.getObject(column, OffsetDateTime.class).toInstant();
  }

  private static OptionalDouble number(ResultSet row, String column) throws SQLException {
    double value = row.getDouble(column);
    return row.wasNull() ? OptionalDouble.empty() : OptionalDouble.of(value);
  }

  /** A number that means nothing at zero, such as a conductivity. */
  private static OptionalDouble positive(ResultSet row, String column) throws SQLException {
    OptionalDouble value = number(row, column);
    return value.isPresent() && value.getAsDouble() > 0 ? value : OptionalDouble.empty();
  }

  private static OptionalDouble scaled(OptionalDouble value, double factor) {
    return value.isEmpty() ? value : OptionalDouble.of(value.getAsDouble() * factor);
  }
}
