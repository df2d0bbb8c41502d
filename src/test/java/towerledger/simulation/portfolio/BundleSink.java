package towerledger.simulation.portfolio;

import java.io.BufferedWriter;
import java.io.IOException;
import java.io.UncheckedIOException;
import java.nio.charset.StandardCharsets;
import java.nio.file.Files;
import java.nio.file.Path;
import java.time.Instant;
import java.util.LinkedHashMap;
import java.util.Map;
import java.util.StringJoiner;
import org.jspecify.annotations.Nullable;
import towerledger.simulation.Climate;
import towerledger.simulation.HourGrid;
import towerledger.simulation.Observations.Heat;
import towerledger.simulation.Observations.HeatForm;
import towerledger.simulation.Observations.Interval;
import towerledger.simulation.Observations.Reading;
import towerledger.simulation.Observations.Sample;
import towerledger.simulation.PlantSpec;
import towerledger.simulation.SimulatedWeather;

/** A large book as the files of a bundle; no cell needs quoting. */
final class BundleSink implements PortfolioSink {

  private static final Map<String, String> HEADERS = headers();

  private final Map<String, BufferedWriter> files = new LinkedHashMap<>();

  BundleSink(Path folder) {
    try {
      Files.createDirectories(folder);
      for (Map.Entry<String, String> header : HEADERS.entrySet()) {
        BufferedWriter file =
            Files.newBufferedWriter(
                folder.resolve(header.getKey() + ".csv"), StandardCharsets.UTF_8);
        file.write(header.getValue() + "\n");
        files.put(header.getKey(), file);
      }
    } catch (IOException e) {
      throw new UncheckedIOException(e);
    }
  }

  private static Map<String, String> headers() {
    Map<String, String> headers = new LinkedHashMap<>();
    headers.put("customers", "customer,name");
    headers.put("sites", "site,customer,name,time_zone,elevation_ft,station");
    headers.put("systems", "system,site,name,system_volume_gal,heat_source");
    headers.put(
        "towers",
        "tower,site,name,system,nominal_tons,design_hot_water_f,design_cold_water_f,design_wet_bulb_f");
    headers.put("settings", "system,effective_from,setting,value");
    headers.put("meters", "meter,system,role,unit,register_digits,accuracy_percent");
    headers.put("register_readings", "meter,read_at,register");
    headers.put("interval_volumes", "meter,start,minutes,volume_gal");
    headers.put(
        "water_samples", "system,taken_at,makeup_conductivity_us_cm,basin_conductivity_us_cm");
    headers.put(
        "heat_loads",
        "system,start,end,chiller_kwh,kw_per_ton,running_hours,average_load_percent,hot_water_f,"
            + "cold_water_f,water_flow_gpm");
    headers.put("weather_hours", "station,hour_start,dry_bulb_f,dew_point_f,pressure_inhg");
    return headers;
  }

  private void row(String file, @Nullable Object... cells) {
    StringJoiner line = new StringJoiner(",", "", "\n");
    for (Object cell : cells) {
      line.add(cell == null ? "" : cell.toString());
    }
    BufferedWriter writer = files.get(file);
    if (writer == null) {
      throw new IllegalArgumentException("no file " + file);
    }
    try {
      writer.write(line.toString());
    } catch (IOException e) {
      throw new UncheckedIOException(e);
    }
  }

  @Override
  public void station(Climate climate, SimulatedWeather weather, int firstHour) {
    HourGrid grid = weather.hours().grid();
    for (int h = firstHour; h < grid.hours(); h++) {
      row(
          "weather_hours",
          climate.name(),
          grid.at(h),
          Math.round(weather.dryBulbC(h) * 18 + 320) / 10.0,
          Math.round(weather.dewPointC(h) * 18 + 320) / 10.0,
          Math.round(weather.pressurePa(h) / 33.86389) / 100.0);
    }
  }

  @Override
  public void customer(int number) {
    row("customers", "C" + number, "Customer " + number);
  }

  @Override
  public void site(int number, int customer, Climate climate) {
    long feet = Math.round(climate.elevationM() / 0.3048);
    row("sites", "L" + number, "C" + customer, "Site " + number, "America/Chicago", feet, climate);
  }

  @Override
  public void system(PortfolioSystem system) {
    PlantSpec spec = system.spec();
    String code = system.code();
    double scale = system.scale();
    long gallons = Math.round(spec.basin().volumeL() * scale / 3.785);
    String site = "L" + system.site();
    row("systems", code, site, "System " + code, gallons, "electric-chiller");
    row(
        "towers",
        code + "-T",
        site,
        "Tower " + code,
        code,
        Math.round(spec.rating().nominalTons() * scale),
        f(spec.rating().hotC()),
        f(spec.rating().coldC()),
        f(spec.rating().wetBulbC()));
    String from = system.seen().readings().get(0).at().toString().substring(0, 10);
    row("settings", code, from, "target_cycles", spec.bleed().targetCycles());
    row("settings", code, from, "blowdown_control", spec.bleed().mode().code());
    row("settings", code, from, "conductivity_setpoint_us_cm", spec.bleed().setpointUsCm());
    row("settings", code, from, "cold_water_setpoint_f", f(spec.rating().setpointC()));
    row("meters", system.meter(), code, "makeup", "gal", 12, 1.5);
    double start = system.seen().readings().get(0).register();
    for (Reading r : system.seen().readings()) {
      row("register_readings", system.meter(), r.at(), (long) system.register(r.register(), start));
    }
    for (Interval i : system.seen().intervals()) {
      double gal = Math.round(i.gallons() * scale * 10) / 10.0;
      row("interval_volumes", system.meter(), i.start(), i.minutes(), gal);
    }
    for (Sample s : system.seen().samples()) {
      row("water_samples", code, s.at(), s.makeupUsCm(), s.basinUsCm());
    }
    for (Heat h : system.seen().heats()) {
      heat(code, h, scale);
    }
  }

  private void heat(String code, Heat h, double scale) {
    Instant start = h.start();
    switch (h.form()) {
      case CHILLER_KWH ->
          row(
              "heat_loads",
              code,
              start,
              h.end(),
              Math.round(h.first() * scale),
              h.second(),
              null,
              null,
              null,
              null,
              null);
      case RUNNING_HOURS ->
          row(
              "heat_loads",
              code,
              start,
              h.end(),
              null,
              null,
              h.first(),
              h.second(),
              null,
              null,
              null);
      case TEMPERATURES ->
          row(
              "heat_loads",
              code,
              start,
              h.end(),
              null,
              null,
              null,
              null,
              h.first(),
              h.second(),
              Math.round(h.third() * scale));
      default -> throw new IllegalArgumentException("no copies of heat as " + HeatForm.TON_HOURS);
    }
  }

  private static double f(double celsius) {
    return Math.round(celsius * 18 + 320) / 10.0;
  }

  @Override
  public void close() {
    try {
      for (BufferedWriter file : files.values()) {
        file.close();
      }
    } catch (IOException e) {
      throw new UncheckedIOException(e);
    }
  }
}
