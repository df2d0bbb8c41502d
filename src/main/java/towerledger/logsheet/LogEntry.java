package towerledger.logsheet;

import java.time.Clock;
import java.time.Duration;
import java.time.Instant;
import java.time.OffsetDateTime;
import java.time.YearMonth;
import java.time.ZoneId;
import java.time.ZoneOffset;
import java.util.LinkedHashMap;
import java.util.List;
import java.util.Map;
import java.util.Objects;
import java.util.OptionalDouble;
import java.util.stream.Collectors;
import org.jspecify.annotations.Nullable;
import org.springframework.context.ApplicationEventPublisher;
import org.springframework.dao.DuplicateKeyException;
import org.springframework.jdbc.core.namedparam.NamedParameterJdbcTemplate;
import org.springframework.stereotype.Service;
import org.springframework.transaction.PlatformTransactionManager;
import org.springframework.transaction.support.TransactionTemplate;
import tools.jackson.databind.json.JsonMapper;
import towerledger.account.Actor;
import towerledger.account.ChangeHistory;
import towerledger.account.Outcome;
import towerledger.balance.facts.SupplyPressure;
import towerledger.balance.facts.Visit;
import towerledger.balance.facts.WaterSample;
import towerledger.site.CoolingSystem;
import towerledger.site.FactsChanged;
import towerledger.site.Sites;

/**
 * Takes single log rows from a form or a script. A row of the same system and instant corrects the
 * one before, which is kept whole; a value left empty leaves the older value as it was.
 */
@Service
public class LogEntry {

  private static final Instant EARLIEST = Instant.parse("1990-01-01T00:00:00Z");
  private static final Duration AHEAD = Duration.ofDays(1);

  /** A month is still judged on what is written down so long after its end. */
  private static final Duration BEARS_ON_THE_MONTH_BEFORE = Duration.ofDays(10);

  private final NamedParameterJdbcTemplate jdbc;
  private final Sites sites;
  private final ChangeHistory history;
  private final ApplicationEventPublisher events;
  private final JsonMapper json;
  private final TransactionTemplate transaction;
  private final Clock clock;

  LogEntry(
      NamedParameterJdbcTemplate jdbc,
      Sites sites,
      ChangeHistory history,
      ApplicationEventPublisher events,
      JsonMapper json,
      PlatformTransactionManager transactions,
      Clock clock) {
    this.jdbc = jdbc;
    this.sites = sites;
    this.history = history;
    this.events = events;
    this.json = json;
    this.transaction = new TransactionTemplate(transactions);
    this.clock = clock;
  }

  /** A table of log rows keyed by system and one instant. */
  private enum Log {
    WATER_SAMPLE("water_sample", "logsheet_water_sample", "taken_at"),
    PRESSURE("pressure", "logsheet_pressure", "taken_at"),
    VISIT("visit", "logsheet_visit", "visited_at");

    final String kind;
    final String table;
    final String instant;

    Log(String kind, String table, String instant) {
      this.kind = kind;
      this.table = table;
      this.instant = instant;
    }
  }

  /**
   * Takes a water sample.
   *
   * @throws IllegalArgumentException when it holds no value or its instant cannot be
   */
  public Outcome enter(Actor actor, CoolingSystem system, WaterSample sample) {
    var values = new LinkedHashMap<String, @Nullable Object>();
    values.put("makeup_conductivity_us_cm", orNull(sample.makeupConductivityUsCm()));
    values.put("basin_conductivity_us_cm", orNull(sample.basinConductivityUsCm()));
    values.put("makeup_chloride_mg_l", orNull(sample.makeupChlorideMgL()));
    values.put("basin_chloride_mg_l", orNull(sample.basinChlorideMgL()));
    values.put("makeup_calcium_mg_l_caco3", orNull(sample.makeupCalciumMgL()));
    values.put("basin_calcium_mg_l_caco3", orNull(sample.basinCalciumMgL()));
    return enter(actor, system, Log.WATER_SAMPLE, sample.takenAt(), values);
  }

  /**
   * Takes a pressure reading.
   *
   * @throws IllegalArgumentException when it holds no value or its instant cannot be
   */
  public Outcome enter(Actor actor, CoolingSystem system, SupplyPressure pressure) {
    var values = new LinkedHashMap<String, @Nullable Object>();
    values.put("supply_kpa", kilopascals(pressure.supplyPascals()));
    values.put("valve_inlet_kpa", kilopascals(pressure.valveInletPascals()));
    return enter(actor, system, Log.PRESSURE, pressure.takenAt(), values);
  }

  /**
   * Takes a visit.
   *
   * @throws IllegalArgumentException when its instant cannot be
   */
  public Outcome enter(Actor actor, CoolingSystem system, VisitNote note) {
    Visit visit = note.visit();
    var values = new LinkedHashMap<String, @Nullable Object>();
    values.put("events", orNull(VisitCodes.formatEvents(visit.events())));
    values.put("drained_l", orNull(visit.drainedLitres()));
    values.put("findings", orNull(VisitCodes.formatFindings(visit.findings())));
    values.put("basin_conductivity_handheld_us_cm", orNull(visit.handheldConductivityUsCm()));
    values.put("basin_conductivity_controller_us_cm", orNull(visit.controllerConductivityUsCm()));
    values.put("basin_temperature_c", orNull(visit.basinTemperatureC()));
    values.put("observation", note.observation().orElse(null));
    values.put("work_done", note.workDone().orElse(null));
    return enter(actor, system, Log.VISIT, visit.at(), values);
  }

  private Outcome enter(
      Actor actor,
      CoolingSystem system,
      Log log,
      Instant at,
      Map<String, @Nullable Object> values) {
    requirePossible(system, log, at, values);
    try {
      return store(actor, system, log, at, values);
    } catch (DuplicateKeyException sameRowJustArrived) {
      // Somebody else entered the same instant between look and write: now it is a correction.
      return store(actor, system, log, at, values);
    }
  }

  private void requirePossible(
      CoolingSystem system, Log log, Instant at, Map<String, @Nullable Object> values) {
    Instant latest = clock.instant().plus(AHEAD);
    if (at.isBefore(EARLIEST) || at.isAfter(latest)) {
      throw new IllegalArgumentException(
          "%s of system %s at %s lies outside %s to %s; check the date"
              .formatted(words(log), system.code(), at, EARLIEST, latest));
    }
    if (log != Log.VISIT && values.values().stream().allMatch(Objects::isNull)) {
      throw new IllegalArgumentException(
          "%s of system %s at %s holds no value; give at least one"
              .formatted(words(log), system.code(), at));
    }
  }

  private static String words(Log log) {
    return log.kind.replace('_', ' ');
  }

  private Outcome store(
      Actor actor,
      CoolingSystem system,
      Log log,
      Instant at,
      Map<String, @Nullable Object> values) {
    return Objects.requireNonNull(
        transaction.execute(status -> write(actor, system, log, at, values)));
  }

  private Outcome write(
      Actor actor,
      CoolingSystem system,
      Log log,
      Instant at,
      Map<String, @Nullable Object> values) {
    List<Map<String, @Nullable Object>> found = find(system, log, at, List.copyOf(values.keySet()));
    Outcome outcome;
    Map<String, @Nullable Object> before = found.isEmpty() ? null : found.get(0);
    Map<String, @Nullable Object> after = new LinkedHashMap<>(values);
    if (before == null) {
      insert(system, log, at, after);
      outcome = Outcome.ADDED;
    } else {
      after.replaceAll((column, value) -> value == null ? before.get(column) : value);
      if (after.equals(before)) {
        return Outcome.UNCHANGED;
      }
      keep(system, log, at, before);
      update(system, log, at, after);
      outcome = Outcome.CHANGED;
    }
    history.record(
        actor,
        outcome == Outcome.ADDED ? "added" : "corrected",
        log.kind,
        system.code() + " " + at,
        system.customerId(),
        before,
        after);
    publish(system, log, at);
    return outcome;
  }

  private List<Map<String, @Nullable Object>> find(
      CoolingSystem system, Log log, Instant at, List<String> columns) {
    return jdbc.query(
        "SELECT %s FROM %s WHERE system_id = :system AND %s = :at FOR UPDATE"
            .formatted(String.join(", ", columns), log.table, log.instant),
        Map.of("system", system.id(), "at", utc(at)),
        (row, number) -> {
          Map<String, @Nullable Object> values = new LinkedHashMap<>();
          for (String column : columns) {
            values.put(column, row.getObject(column));
          }
          return values;
        });
  }

  private void insert(
      CoolingSystem system, Log log, Instant at, Map<String, @Nullable Object> values) {
    Map<String, @Nullable Object> parameters = parameters(system, at, values);
    jdbc.update(
        "INSERT INTO %s (customer_id, system_id, %s, %s) VALUES (:customer, :system, :at, %s)"
            .formatted(
                log.table,
                log.instant,
                String.join(", ", values.keySet()),
                values.keySet().stream().map(c -> ":" + c).collect(Collectors.joining(", "))),
        parameters);
  }

  private void update(
      CoolingSystem system, Log log, Instant at, Map<String, @Nullable Object> values) {
    jdbc.update(
        "UPDATE %s SET %s WHERE system_id = :system AND %s = :at"
            .formatted(
                log.table,
                values.keySet().stream().map(c -> c + " = :" + c).collect(Collectors.joining(", ")),
                log.instant),
        parameters(system, at, values));
  }

  private void keep(
      CoolingSystem system, Log log, Instant at, Map<String, @Nullable Object> before) {
    jdbc.update(
        """
        INSERT INTO logsheet_correction
          (customer_id, system_id, log_kind, at, replaced_at, old_json)
        VALUES (:customer, :system, :kind, :at, :now, :old)""",
        Map.of(
            "customer", system.customerId(),
            "system", system.id(),
            "kind", log.kind,
            "at", utc(at),
            "now", utc(clock.instant()),
            "old", json.writeValueAsString(before)));
  }

  private static Map<String, @Nullable Object> parameters(
      CoolingSystem system, Instant at, Map<String, @Nullable Object> values) {
    Map<String, @Nullable Object> parameters = new LinkedHashMap<>(values);
    parameters.put("customer", system.customerId());
    parameters.put("system", system.id());
    parameters.put("at", utc(at));
    return parameters;
  }

  private void publish(CoolingSystem system, Log log, Instant at) {
    ZoneId zone = sites.findSite(system.siteId()).orElseThrow().details().zone();
    events.publishEvent(
        new FactsChanged(
            List.of(
                new FactsChanged.Touched(
                    system.id(),
                    YearMonth.from(at.minus(BEARS_ON_THE_MONTH_BEFORE).atZone(zone)),
                    YearMonth.from(at.atZone(zone)))),
            words(log) + " of system " + system.code()));
  }

  private static @Nullable Double orNull(OptionalDouble value) {
    return value.isPresent() ? value.getAsDouble() : null;
  }

  private static @Nullable Double kilopascals(OptionalDouble pascals) {
    return pascals.isPresent() ? pascals.getAsDouble() / 1000 : null;
  }

  private static @Nullable String orNull(String text) {
    return text.isEmpty() ? null : text;
  }

  private static OffsetDateTime utc(Instant instant) {
    return OffsetDateTime.ofInstant(instant, ZoneOffset.UTC);
  }
}
