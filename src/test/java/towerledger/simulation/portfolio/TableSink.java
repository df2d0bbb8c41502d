package towerledger.simulation.portfolio;

import java.sql.Connection;
import java.sql.PreparedStatement;
import java.sql.SQLException;
import java.sql.Statement;
import java.time.Instant;
import java.time.LocalDate;
import java.time.OffsetDateTime;
import java.time.ZoneOffset;
import java.util.LinkedHashMap;
import java.util.Map;
import javax.sql.DataSource;
import org.jspecify.annotations.Nullable;
import towerledger.quantity.Units;
import towerledger.simulation.Climate;
import towerledger.simulation.HourGrid;
import towerledger.simulation.Observations.Heat;
import towerledger.simulation.Observations.Interval;
import towerledger.simulation.Observations.Reading;
import towerledger.simulation.Observations.Sample;
import towerledger.simulation.PlantSpec;
import towerledger.simulation.SimulatedWeather;

/**
 * A large book straight into empty tables, in batches; identities are set, then moved past. It
 * knows the columns of the schema, so a change of the schema that it misses fails at once.
 */
final class TableSink implements PortfolioSink {

  private static final int BATCH = 5_000;
  private static final Instant CREATED = Instant.parse("2025-01-01T00:00:00Z");

  private final Connection connection;
  private final Map<String, Table> tables = new LinkedHashMap<>();

  private static final class Table {
    final PreparedStatement statement;
    int waiting;

    Table(PreparedStatement statement) {
      this.statement = statement;
    }
  }

  TableSink(DataSource database) {
    try {
      connection = database.getConnection();
      connection.setAutoCommit(false);
    } catch (SQLException e) {
      throw new IllegalStateException("cannot write the book", e);
    }
  }

  private void row(String table, String columns, @Nullable Object... cells) {
    try {
      Table target = tables.get(table);
      if (target == null) {
        String marks = "?" + ", ?".repeat(cells.length - 1);
        target =
            new Table(
                connection.prepareStatement(
                    "INSERT INTO " + table + " (" + columns + ") VALUES (" + marks + ")"));
        tables.put(table, target);
      }
      for (int i = 0; i < cells.length; i++) {
        Object cell = cells[i];
        target.statement.setObject(
            i + 1,
            cell instanceof Instant instant
                ? OffsetDateTime.ofInstant(instant, ZoneOffset.UTC)
                : cell);
      }
      target.statement.addBatch();
      if (++target.waiting == BATCH) {
        flush();
      }
    } catch (SQLException e) {
      throw new IllegalStateException("cannot write a row of " + table, e);
    }
  }

  /** Tables in the order in which they were first used: parents before children. */
  private void flush() throws SQLException {
    for (Table table : tables.values()) {
      if (table.waiting > 0) {
        table.statement.executeBatch();
        table.waiting = 0;
      }
    }
    connection.commit();
  }

  @Override
  public void station(Climate climate, SimulatedWeather weather, int firstHour) {
    row(
        "weather_station",
        "code, elevation_m, created_at",
        climate.name(),
        climate.elevationM(),
        CREATED);
    HourGrid grid = weather.hours().grid();
    for (int h = firstHour; h < grid.hours(); h++) {
      row(
          "weather_hour",
          "station, hour_start, dry_bulb_c, dew_point_c, pressure_kpa",
          climate.name(),
          grid.at(h),
          weather.dryBulbC(h),
          weather.dewPointC(h),
          weather.pressurePa(h) / 1000);
    }
  }

  @Override
  public void customer(int number) {
    row(
        "account_customer",
        "id, code, name, created_at",
        (long) number + 1,
        "C" + number,
        "Customer " + number,
        CREATED);
  }

  @Override
  public void site(int number, int customer, Climate climate) {
    row(
        "site_site",
        "id, code, customer_id, name, time_zone, elevation_m, station, created_at",
        (long) number + 1,
        "L" + number,
        (long) customer + 1,
        "Site " + number,
        "America/Chicago",
        climate.elevationM(),
        climate.name(),
        CREATED);
  }

  @Override
  public void system(PortfolioSystem system) {
    PlantSpec spec = system.spec();
    long id = system.number() + 1L;
    long customer = system.customer() + 1L;
    double scale = system.scale();
    row(
        "site_system",
        "id, code, site_id, customer_id, name, system_volume_l, heat_source, own_tower, created_at",
        id,
        system.code(),
        system.site() + 1L,
        customer,
        "System " + system.code(),
        spec.basin().volumeL() * scale,
        "electric-chiller",
        false,
        CREATED);
    row(
        "site_tower",
        "id, code, system_id, name, nominal_kw, design_hot_water_c, design_cold_water_c,"
            + " design_wet_bulb_c, created_at",
        id,
        system.code() + "-T",
        id,
        "Tower " + system.code(),
        spec.rating().nominalW() * scale / 1000,
        spec.rating().hotC(),
        spec.rating().coldC(),
        spec.rating().wetBulbC(),
        CREATED);
    LocalDate from =
        LocalDate.parse(system.seen().readings().get(0).at().toString().substring(0, 10));
    setting(id, from, "target_cycles", spec.bleed().targetCycles());
    setting(id, from, "blowdown_control", spec.bleed().mode().code());
    setting(id, from, "conductivity_setpoint_us_cm", spec.bleed().setpointUsCm());
    setting(id, from, "cold_water_setpoint_c", spec.rating().setpointC());
    row(
        "site_meter",
        "id, code, site_id, system_id, role, unit, register_digits, accuracy_percent, created_at",
        id,
        system.meter(),
        system.site() + 1L,
        id,
        "makeup",
        "gal",
        12,
        1.5,
        CREATED);
    double start = system.seen().readings().get(0).register();
    for (Reading r : system.seen().readings()) {
      row(
          "meter_register_reading",
          "customer_id, meter_id, read_at, register, recorded_at, recorded_by",
          customer,
          id,
          r.at(),
          system.register(r.register(), start),
          r.at(),
          "book");
    }
    for (Interval i : system.seen().intervals()) {
      row(
          "meter_interval_volume",
          "customer_id, meter_id, start_at, minutes, volume_l",
          customer,
          id,
          i.start(),
          i.minutes(),
          i.gallons() * scale * Units.LITRES_PER_US_GALLON);
    }
    for (Sample s : system.seen().samples()) {
      row(
          "logsheet_water_sample",
          "customer_id, system_id, taken_at, makeup_conductivity_us_cm, basin_conductivity_us_cm",
          customer,
          id,
          s.at(),
          s.makeupUsCm(),
          s.basinUsCm());
    }
    for (Heat h : system.seen().heats()) {
      heat(customer, id, h, scale);
    }
  }

  private void setting(long system, LocalDate from, String setting, Object value) {
    row(
        "site_setting",
        "system_id, effective_from, setting, setting_value, created_at",
        system,
        from,
        setting,
        value.toString(),
        CREATED);
  }

  private void heat(long customer, long system, Heat h, double scale) {
    @Nullable Object[] cells = new Object[11];
    cells[0] = customer;
    cells[1] = system;
    cells[2] = h.start();
    cells[3] = h.end();
    switch (h.form()) {
      case CHILLER_KWH -> {
        cells[4] = h.first() * scale;
        cells[5] = h.second();
      }
      case RUNNING_HOURS -> {
        cells[6] = h.first();
        cells[7] = h.second();
      }
      case TEMPERATURES -> {
        cells[8] = Units.celsius(h.first());
        cells[9] = Units.celsius(h.second());
        cells[10] = h.third() * scale * Units.LITRES_PER_US_GALLON / 60;
      }
      default -> throw new IllegalArgumentException("no copies of heat as " + h.form());
    }
    row(
        "logsheet_heat_load",
        "customer_id, system_id, start_at, end_at, chiller_kwh, kw_per_ton, running_hours,"
            + " average_load_percent, hot_water_c, cold_water_c, water_flow_l_s",
        cells);
  }

  @Override
  public void close() {
    try (Connection closing = connection) {
      flush();
      try (Statement statement = closing.createStatement()) {
        for (String table :
            new String[] {
              "account_customer", "site_site", "site_system", "site_tower", "site_meter"
            }) {
          statement.execute("ALTER TABLE " + table + " ALTER COLUMN id RESTART WITH 1000000");
        }
      }
      closing.commit();
    } catch (SQLException e) {
      throw new IllegalStateException("cannot write the book", e);
    }
  }
}
