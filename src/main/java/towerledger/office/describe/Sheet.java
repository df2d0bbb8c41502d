package towerledger.office.describe;

import java.util.List;
import java.util.Map;

/**
 * What can be described on a form.
 *
 * @param path its name in addresses
 * @param file its file of the interchange format
 * @param key columns that name a row
 * @param first columns shown at once; the others are folded away
 */
record Sheet(String path, String file, List<String> key, List<String> first) {

  static final List<Sheet> ALL =
      List.of(
          new Sheet("customer", "customers", List.of("customer"), List.of("customer", "name")),
          new Sheet(
              "site",
              "sites",
              List.of("site"),
              List.of(
                  "site",
                  "customer",
                  "name",
                  "time_zone",
                  "station",
                  "water_schedule",
                  "sewer_schedule")),
          new Sheet(
              "system",
              "systems",
              List.of("system"),
              List.of("system", "site", "name", "kind", "heat_source", "building_use")),
          new Sheet(
              "tower",
              "towers",
              List.of("tower"),
              List.of(
                  "tower",
                  "site",
                  "name",
                  "system",
                  "nominal_tons",
                  "started_on",
                  "blowdown_control",
                  "target_cycles",
                  "level_control")),
          new Sheet(
              "meter",
              "meters",
              List.of("meter"),
              List.of("meter", "system", "role", "unit", "multiplier", "register_digits")),
          new Sheet(
              "setting",
              "settings",
              List.of("system", "effective_from", "setting"),
              List.of("system", "effective_from", "setting", "value", "reason")),
          new Sheet(
              "rate",
              "rate_schedules",
              List.of("schedule", "effective_from"),
              List.of(
                  "schedule",
                  "service",
                  "effective_from",
                  "billing_unit",
                  "name",
                  "months_per_bill",
                  "evaporation_credit")),
          new Sheet(
              "charge",
              "rate_charges",
              List.of("schedule", "effective_from", "charge"),
              List.of("schedule", "effective_from", "charge", "amount")),
          new Sheet(
              "block",
              "rate_blocks",
              List.of("schedule", "effective_from", "from_units"),
              List.of("schedule", "effective_from", "from_units", "rate")));

  /** Choices of a column by their codes in the files. */
  static final Map<String, List<String>> CHOICES =
      Map.ofEntries(
          Map.entry("kind", List.of("open", "closed-circuit", "evaporative-condenser", "hybrid")),
          Map.entry("flow_arrangement", List.of("counterflow", "crossflow")),
          Map.entry("fan_control", List.of("single-speed", "two-speed", "variable-speed")),
          Map.entry(
              "heat_source",
              List.of(
                  "electric-chiller",
                  "absorption-chiller",
                  "process",
                  "heat-pump-loop",
                  "refrigeration",
                  "other")),
          Map.entry(
              "building_use",
              List.of(
                  "office",
                  "hospital",
                  "hotel",
                  "school",
                  "laboratory",
                  "retail",
                  "data-center",
                  "industrial",
                  "other")),
          Map.entry("waterside_economizer", List.of("true", "false")),
          Map.entry("has_basin_heater", List.of("true", "false")),
          Map.entry("level_sensor_outside", List.of("true", "false")),
          Map.entry(
              "blowdown_control",
              List.of("conductivity", "makeup-proportional", "timer", "manual", "none")),
          Map.entry(
              "level_control",
              List.of(
                  "mechanical-float",
                  "float-switch",
                  "conductance-probes",
                  "ultrasonic",
                  "pressure-transducer",
                  "manual",
                  "other")),
          Map.entry("role", List.of("makeup", "blowdown", "other-use", "credit", "service")),
          Map.entry("unit", List.of("gal", "kgal", "imp_gal", "ft3", "ccf", "l", "m3")),
          Map.entry(
              "type", List.of("displacement", "turbine", "compound", "magnetic", "ultrasonic")),
          Map.entry("source", List.of("city", "well", "reclaimed", "rain", "softened")),
          Map.entry("service", List.of("water", "sewer")),
          Map.entry("billing_unit", List.of("gal", "kgal", "ft3", "ccf", "l", "m3")),
          Map.entry(
              "sewer_basis",
              List.of("metered-water", "percent-of-water", "return-meter", "winter-average")),
          Map.entry(
              "evaporation_credit",
              List.of(
                  "none",
                  "makeup-minus-blowdown",
                  "credit-meter",
                  "percent-of-makeup",
                  "engineered",
                  "blowdown-as-sewer")),
          Map.entry(
              "setting",
              List.of(
                  "cold_water_setpoint_f",
                  "cold_water_setpoint_c",
                  "target_cycles",
                  "conductivity_setpoint_us_cm",
                  "blowdown_control",
                  "drift_percent",
                  "level_control",
                  "level_sensor_outside",
                  "makeup_line_in",
                  "makeup_line_mm",
                  "fill_valve_cv",
                  "fill_valve_kv",
                  "fill_valve_max_psi",
                  "fill_valve_max_kpa",
                  "regulator_set_psi",
                  "regulator_set_kpa")));

  boolean isKey(String column) {
    return key.contains(column);
  }
}
