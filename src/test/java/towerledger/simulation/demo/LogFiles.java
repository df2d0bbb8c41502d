package towerledger.simulation.demo;

import java.time.Instant;
import java.time.ZoneId;
import java.time.ZoneOffset;
import java.time.format.DateTimeFormatter;
import java.util.Locale;
import org.jspecify.annotations.Nullable;
import towerledger.simulation.HourGrid;
import towerledger.simulation.Observations;
import towerledger.simulation.Observations.Heat;
import towerledger.simulation.Observations.HeatForm;
import towerledger.simulation.Observations.Interval;
import towerledger.simulation.Observations.Meter;
import towerledger.simulation.Observations.Pressure;
import towerledger.simulation.Observations.Reading;
import towerledger.simulation.Observations.Sample;
import towerledger.simulation.Observations.Visit;
import towerledger.simulation.SimulatedWeather;

/** Meters, readings, analyses, heat, weather and visits as files. */
final class LogFiles {

  private static final DateTimeFormatter LOCAL =
      DateTimeFormatter.ofPattern("uuuu-MM-dd'T'HH:mm", Locale.ROOT);
  private static final DateTimeFormatter UTC =
      DateTimeFormatter.ofPattern("uuuu-MM-dd'T'HH:mm'Z'", Locale.ROOT).withZone(ZoneOffset.UTC);

  private final DemoBundle bundle;
  private final CsvFolder csv;

  LogFiles(DemoBundle bundle, CsvFolder csv) {
    this.bundle = bundle;
    this.csv = csv;
  }

  /** One row maker per observed system. */
  private interface PerSystem {
    void rows(String system, ZoneId zone, Observations seen, CsvFolder.Rows rows);
  }

  private void perSystem(String file, String header, PerSystem content) {
    csv.write(
        file,
        header,
        rows -> {
          for (DemoRun run : bundle.runs()) {
            content.rows(
                run.system().code(),
                bundle.site(run.system().site()).zone(),
                run.observations(),
                rows);
          }
        });
  }

  void write() {
    perSystem(
        "meters.csv",
        "meter,system,role,unit,multiplier,register_digits,accuracy_percent,size_in,type,source,"
            + "installed_at,first_register,removed_at,last_register",
        LogFiles::meters);
    perSystem("register_readings.csv", "meter,read_at,register,kind,note", LogFiles::readings);
    perSystem("interval_volumes.csv", "meter,start,minutes,volume_gal", LogFiles::intervals);
    perSystem(
        "water_samples.csv",
        "system,taken_at,makeup_conductivity_us_cm,basin_conductivity_us_cm,makeup_chloride_mg_l,"
            + "basin_chloride_mg_l,makeup_calcium_mg_l_caco3,basin_calcium_mg_l_caco3",
        LogFiles::samples);
    perSystem(
        "pressure_readings.csv", "system,taken_at,supply_psi,valve_inlet_psi", LogFiles::pressures);
    perSystem(
        "heat_loads.csv",
        "system,start,end,heat_rejected_mmbtu,chilled_water_ton_hours,kw_per_ton,chiller_kwh,"
            + "running_hours,average_load_percent,hot_water_f,cold_water_f,water_flow_gpm",
        LogFiles::heats);
    perSystem(
        "visits.csv",
        "system,visited_at,events,drained_gal,findings,basin_conductivity_handheld_us_cm,"
            + "basin_conductivity_controller_us_cm,basin_temperature_f,observation,work_done",
        LogFiles::visits);
    csv.write(
        "weather_hours.csv",
        "station,hour_start,dry_bulb_f,dew_point_f,pressure_inhg",
        rows -> bundle.stations().forEach((code, weather) -> weather(code, weather, rows)));
  }

  private static void meters(String system, ZoneId zone, Observations seen, CsvFolder.Rows rows) {
    for (Meter m : seen.meters()) {
      rows.add(
          m.code(),
          system,
          m.role(),
          m.unit(),
          m.multiplier(),
          m.digits(),
          m.accuracyPercent(),
          m.sizeIn(),
          m.type(),
          m.source(),
          local(m.installedAt(), zone),
          m.firstRegister(),
          m.removedAt() == null ? null : local(m.removedAt(), zone),
          m.lastRegister());
    }
  }

  private static void readings(String system, ZoneId zone, Observations seen, CsvFolder.Rows rows) {
    for (Reading r : seen.readings()) {
      String at = r.dayOnly() ? r.at().atZone(zone).toLocalDate().toString() : local(r.at(), zone);
      rows.add(r.meter(), at, r.register(), r.estimated() ? "estimated" : "actual", null);
    }
  }

  private static void intervals(
      String system, ZoneId zone, Observations seen, CsvFolder.Rows rows) {
    for (Interval i : seen.intervals()) {
      rows.add(i.meter(), UTC.format(i.start()), i.minutes(), i.gallons());
    }
  }

  private static void samples(String system, ZoneId zone, Observations seen, CsvFolder.Rows rows) {
    for (Sample s : seen.samples()) {
      rows.add(
          system,
          local(s.at(), zone),
          s.makeupUsCm(),
          s.basinUsCm(),
          s.makeupChloride(),
          s.basinChloride(),
          s.makeupCalcium(),
          s.basinCalcium());
    }
  }

  private static void pressures(
      String system, ZoneId zone, Observations seen, CsvFolder.Rows rows) {
    for (Pressure p : seen.pressures()) {
      rows.add(system, local(p.at(), zone), p.supplyPsi(), p.inletPsi());
    }
  }

  private static void heats(String system, ZoneId zone, Observations seen, CsvFolder.Rows rows) {
    for (Heat h : seen.heats()) {
      HeatForm form = h.form();
      boolean hourly = form == HeatForm.TEMPERATURES;
      rows.add(
          system,
          hourly ? UTC.format(h.start()) : local(h.start(), zone),
          hourly ? UTC.format(h.end()) : local(h.end(), zone),
          form == HeatForm.HEAT_REJECTED ? h.first() : null,
          form == HeatForm.TON_HOURS ? h.first() : null,
          form == HeatForm.TON_HOURS || form == HeatForm.CHILLER_KWH ? h.second() : null,
          form == HeatForm.CHILLER_KWH ? h.first() : null,
          form == HeatForm.RUNNING_HOURS ? h.first() : null,
          form == HeatForm.RUNNING_HOURS ? h.second() : null,
          hourly ? h.first() : null,
          hourly ? h.second() : null,
          hourly ? h.third() : null);
    }
  }

  private static void visits(String system, ZoneId zone, Observations seen, CsvFolder.Rows rows) {
    for (Visit v : seen.visits()) {
      rows.add(
          system,
          local(v.at(), zone),
          joined(v.events()),
          v.drainedGal(),
          joined(v.findings()),
          v.handheldUsCm(),
          v.controllerUsCm(),
          v.basinF(),
          v.observation(),
          v.work());
    }
  }

  private static @Nullable String joined(java.util.List<String> codes) {
    return codes.isEmpty() ? null : String.join(";", codes);
  }

  private static void weather(String code, SimulatedWeather weather, CsvFolder.Rows rows) {
    HourGrid grid = weather.hours().grid();
    ZoneId zone = weather.hours().zone();
    int first = grid.indexOf(DemoBook.FROM.atStartOfDay(zone).toInstant());
    for (int h = first; h < grid.hours(); h++) {
      rows.add(
          code,
          UTC.format(grid.at(h)),
          tenth(weather.dryBulbC(h) * 1.8 + 32),
          tenth(weather.dewPointC(h) * 1.8 + 32),
          Math.round(weather.pressurePa(h) / 3386.389 * 100) / 100.0);
    }
  }

  private static double tenth(double value) {
    return Math.round(value * 10) / 10.0;
  }

  private static String local(Instant at, ZoneId zone) {
    return LOCAL.format(at.atZone(zone));
  }
}
