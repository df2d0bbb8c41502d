package towerledger.office.describe;

import java.util.List;
import java.util.Map;
import java.util.function.Function;
import java.util.stream.Stream;
import towerledger.quantity.VolumeUnit;
import towerledger.site.BlowdownControl;
import towerledger.site.BuildingUse;
import towerledger.site.Coded;
import towerledger.site.FanControl;
import towerledger.site.FlowArrangement;
import towerledger.site.HeatSource;
import towerledger.site.LevelControl;
import towerledger.site.MeterRole;
import towerledger.site.MeterType;
import towerledger.site.SettingName;
import towerledger.site.SystemKind;
import towerledger.site.WaterSource;
import towerledger.tariff.CreditRule;
import towerledger.tariff.Service;
import towerledger.tariff.SewerRule;

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
              "station",
              "weather_stations",
              List.of("station"),
              List.of("station", "name", "latitude_deg", "longitude_deg", "elevation_ft")),
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

  /** Columns that name a tower and its place, though those of a system are named alike. */
  static final List<String> OF_A_TOWER = List.of("site", "name", "system");

  /** Columns that tell of the hours of a station; whoever brings the hours tells them. */
  static final List<String> OF_A_STATION_S_HOURS = List.of("source", "typical_year");

  private static final List<String> YES_OR_NO = List.of("true", "false");

  /** Choices of a column by their codes in the files. */
  static final Map<String, List<String>> CHOICES =
      Map.ofEntries(
          Map.entry("kind", codes(SystemKind.values(), Coded::code)),
          Map.entry("flow_arrangement", codes(FlowArrangement.values(), Coded::code)),
          Map.entry("fan_control", codes(FanControl.values(), Coded::code)),
          Map.entry("heat_source", codes(HeatSource.values(), Coded::code)),
          Map.entry("building_use", codes(BuildingUse.values(), Coded::code)),
          Map.entry("waterside_economizer", YES_OR_NO),
          Map.entry("has_basin_heater", YES_OR_NO),
          Map.entry("level_sensor_outside", YES_OR_NO),
          Map.entry("blowdown_control", codes(BlowdownControl.values(), Coded::code)),
          Map.entry("level_control", codes(LevelControl.values(), Coded::code)),
          Map.entry("role", codes(MeterRole.values(), Coded::code)),
          Map.entry("unit", codes(VolumeUnit.values(), VolumeUnit::code)),
          Map.entry("type", codes(MeterType.values(), Coded::code)),
          Map.entry("source", codes(WaterSource.values(), Coded::code)),
          Map.entry("service", codes(Service.values(), Service::code)),
          Map.entry(
              "billing_unit",
              Stream.of(VolumeUnit.values())
                  .filter(unit -> unit != VolumeUnit.IMPERIAL_GALLON)
                  .map(VolumeUnit::code)
                  .toList()),
          Map.entry("sewer_basis", codes(SewerRule.Basis.values(), SewerRule.Basis::code)),
          Map.entry(
              "evaporation_credit", codes(CreditRule.Method.values(), CreditRule.Method::code)),
          Map.entry(
              "setting",
              Stream.of(SettingName.values())
                  .flatMap(name -> Stream.concat(name.usCode().stream(), Stream.of(name.code())))
                  .toList()));

  private static <T> List<String> codes(T[] choices, Function<? super T, String> code) {
    return Stream.of(choices).map(code).toList();
  }

  boolean isKey(String column) {
    return key.contains(column);
  }
}
