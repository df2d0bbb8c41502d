package towerledger.simulation.demo;

import java.time.LocalDate;
import towerledger.simulation.PlantSpec;
import towerledger.simulation.demo.DemoBook.Customer;
import towerledger.simulation.demo.DemoSystem.Change;
import towerledger.simulation.demo.DemoSystem.Told;
import towerledger.simulation.demo.DemoSystem.Tower;

/** Customers, sites, systems, towers and settings as files. */
final class BookFiles {

  private static final String ATTRIBUTES =
      "kind,system_volume_gal,heat_source,waterside_economizer,building_use,occupied_from,"
          + "occupied_to,occupied_days,idle_months";

  private final DemoBundle bundle;
  private final CsvFolder csv;

  BookFiles(DemoBundle bundle, CsvFolder csv) {
    this.bundle = bundle;
    this.csv = csv;
  }

  void write() {
    csv.write(
        "customers.csv",
        "customer,name,contact_name,report_emails,currency",
        rows -> {
          for (Customer c : DemoBook.customers()) {
            rows.add(c.code(), c.name(), c.contact(), c.emails(), "USD");
          }
        });
    csv.write(
        "sites.csv",
        "site,customer,name,time_zone,latitude_deg,longitude_deg,elevation_ft,station,"
            + "water_schedule,sewer_schedule,service_meter_size_in",
        rows -> {
          for (DemoSite s : DemoBook.sites()) {
            rows.add(
                s.code(),
                s.customer(),
                s.name(),
                s.zone().getId(),
                s.latitude(),
                s.longitude(),
                s.elevationFt(),
                s.station(),
                s.waterSchedule(),
                s.sewerSchedule(),
                s.serviceMeterIn());
          }
        });
    csv.write("systems.csv", "system,site,name," + ATTRIBUTES, this::systems);
    csv.write(
        "towers.csv",
        "tower,site,name,system,cells,flow_arrangement,nominal_tons,design_water_flow_gpm,"
            + "design_hot_water_f,design_cold_water_f,design_wet_bulb_f,design_dry_bulb_f,"
            + "design_air_flow_cfm,fan_motor_hp,fan_control,basin_volume_gal,has_basin_heater,"
            + "started_on,"
            + ATTRIBUTES,
        this::towers);
    csv.write("settings.csv", "system,effective_from,setting,value,reason", this::settings);
  }

  private void systems(CsvFolder.Rows rows) {
    for (DemoRun run : bundle.runs()) {
      DemoSystem system = run.system();
      if (!system.ownTower()) {
        Told t = system.told();
        rows.add(
            system.code(),
            system.site(),
            system.name(),
            t.kind(),
            volumeGal(system),
            t.heatSource(),
            t.economizer(),
            t.use(),
            t.occupiedFrom(),
            t.occupiedTo(),
            t.occupiedDays(),
            t.idleMonths());
      }
    }
  }

  private static double volumeGal(DemoSystem system) {
    return 50 * Math.round(system.plant().basin().volumeL() / 3.785411784 / 50);
  }

  private void towers(CsvFolder.Rows rows) {
    for (DemoRun run : bundle.runs()) {
      DemoSystem system = run.system();
      PlantSpec.Rating r = system.plant().rating();
      Told t = system.told();
      boolean own = system.ownTower();
      for (Tower tower : system.towers()) {
        rows.add(
            tower.code(),
            system.site(),
            tower.name(),
            own ? null : system.code(),
            tower.cells(),
            tower.arrangement(),
            tower.tons(),
            tower.tons() * 3,
            f(r.hotC()),
            f(r.coldC()),
            f(r.wetBulbC()),
            f(r.dryBulbC()),
            tower.airFlowKnown() ? designCfm(r, tower, run) : null,
            tower.fanHp(),
            tower.fanControl(),
            tower.basinGal(),
            tower.heater(),
            tower.startedOn(),
            own ? t.kind() : null,
            own ? volumeGal(system) : null,
            own ? t.heatSource() : null,
            own ? t.economizer() : null,
            own ? t.use() : null,
            own ? t.occupiedFrom() : null,
            own ? t.occupiedTo() : null,
            own ? t.occupiedDays() : null,
            own ? t.idleMonths() : null);
      }
    }
  }

  private static double designCfm(PlantSpec.Rating r, Tower tower, DemoRun run) {
    double part = tower.tons() / r.nominalTons();
    double dryAirKgS = r.waterKgS() / r.liquidToGas() * part;
    double pa = run.water().operation().weather().pressurePa(0);
    // Volume of the air at the design inlet state, by the gas law with its vapour.
    double cubicMetres = dryAirKgS * 287.05 * (r.dryBulbC() + 273.15) * 1.02 / pa;
    return 500 * Math.round(cubicMetres * 2118.88 / 500);
  }

  private void settings(CsvFolder.Rows rows) {
    for (DemoRun run : bundle.runs()) {
      DemoSystem system = run.system();
      PlantSpec p = system.plant();
      Told t = system.told();
      LocalDate from = DemoBook.FROM;
      String sheet = "commissioning sheet";
      String vendor = "treatment programme";
      String code = system.code();
      rows.add(code, from, "cold_water_setpoint_f", f(p.rating().setpointC()), sheet);
      rows.add(code, from, "target_cycles", p.bleed().targetCycles(), vendor);
      rows.add(code, from, "blowdown_control", p.bleed().mode().code(), vendor);
      if (p.bleed().mode() == PlantSpec.BleedMode.CONDUCTIVITY) {
        rows.add(code, from, "conductivity_setpoint_us_cm", p.bleed().setpointUsCm(), vendor);
      }
      rows.add(code, from, "drift_percent", Math.round(p.rating().driftPart() * 1e5) / 1e3, sheet);
      rows.add(code, from, "level_control", p.fill().levelControl(), sheet);
      if (t.sensorOutside() != null) {
        rows.add(code, from, "level_sensor_outside", t.sensorOutside(), sheet);
      }
      rows.add(code, from, "makeup_line_in", p.fill().lineIn(), sheet);
      if (t.valveKnown()) {
        rows.add(code, from, "fill_valve_cv", p.fill().cv(), "valve plate");
      }
      if (t.valveMaxPsi() != null) {
        rows.add(code, from, "fill_valve_max_psi", t.valveMaxPsi(), "valve plate");
      }
      if (!Double.isNaN(p.water().regulatorPsi())) {
        rows.add(code, from, "regulator_set_psi", p.water().regulatorPsi(), sheet);
      }
      for (Change change : system.changes()) {
        rows.add(code, change.from(), change.setting(), change.value(), change.reason());
      }
    }
  }

  private static double f(double celsius) {
    return Math.round((celsius * 1.8 + 32) * 10) / 10.0;
  }
}
