package towerledger.intake;

import java.util.List;

/** The files of an export: every fact and setting, and every revision of the ledger. */
final class ExportFiles {

  private ExportFiles() {}

  /**
   * Settings as columns hold for a tower's own system only, so all go into settings.csv. A tower's
   * own system stands in systems.csv where it has a name of its own.
   */
  static final List<ExportFile> ALL =
      List.of(
          ExportFile.of(
              "customers",
              "customer \"name \"contact_name \"report_emails currency",
              """
              SELECT code, name, contact_name, report_emails, currency
              FROM account_customer ORDER BY code"""),
          ExportFile.of(
              "sites",
              """
              site customer "name time_zone latitude_deg longitude_deg elevation_m station \
              water_schedule sewer_schedule service_meter_size_mm""",
              """
              SELECT s.code, c.code, s.name, s.time_zone, s.latitude_deg, s.longitude_deg,
                s.elevation_m, s.station, s.water_schedule, s.sewer_schedule,
                s.service_meter_size_mm
              FROM site_site s JOIN account_customer c ON c.id = s.customer_id ORDER BY s.code"""),
          ExportFile.of(
              "systems",
              """
              system site "name kind system_volume_l heat_source waterside_economizer \
              building_use occupied_from occupied_to occupied_days idle_months""",
              """
              SELECT y.code, s.code, y.name, y.kind, y.system_volume_l, y.heat_source,
                y.waterside_economizer, y.building_use, y.occupied_from, y.occupied_to,
                y.occupied_days, y.idle_months
              FROM site_system y JOIN site_site s ON s.id = y.site_id
              WHERE NOT y.own_tower OR NOT EXISTS (
                SELECT 1 FROM site_tower t
                WHERE t.system_id = y.id AND t.code = y.code AND t.name = y.name)
              ORDER BY y.code"""),
          ExportFile.of(
              "towers",
              """
              tower site "name system cells flow_arrangement nominal_kw design_water_flow_l_s \
              design_hot_water_c design_cold_water_c design_wet_bulb_c design_dry_bulb_c \
              design_air_flow_m3_s fan_motor_kw fan_control basin_volume_l has_basin_heater \
              started_on kind system_volume_l heat_source waterside_economizer building_use \
              occupied_from occupied_to occupied_days idle_months""",
              """
              SELECT t.code, s.code, t.name,
                CASE WHEN y.own_tower AND y.code = t.code THEN NULL ELSE y.code END,
                t.cells, t.flow_arrangement, t.nominal_kw, t.design_water_flow_l_s,
                t.design_hot_water_c, t.design_cold_water_c, t.design_wet_bulb_c,
                t.design_dry_bulb_c, t.design_air_flow_m3_s, t.fan_motor_kw, t.fan_control,
                t.basin_volume_l, t.has_basin_heater, t.started_on,
                o.kind, o.system_volume_l, o.heat_source, o.waterside_economizer,
                o.building_use, o.occupied_from, o.occupied_to, o.occupied_days, o.idle_months
              FROM site_tower t
              JOIN site_system y ON y.id = t.system_id
              JOIN site_site s ON s.id = y.site_id
              LEFT JOIN site_system o ON o.id = y.id AND o.own_tower AND o.code = t.code
              ORDER BY t.code"""),
          ExportFile.of(
              "settings",
              "system effective_from setting value \"reason",
              """
              SELECT y.code, g.effective_from, g.setting, g.setting_value, g.reason
              FROM site_setting g JOIN site_system y ON y.id = g.system_id
              ORDER BY y.code, g.setting, g.effective_from"""),
          ExportFile.of(
              "meters",
              """
              meter system site role unit multiplier register_digits accuracy_percent size_mm \
              type parent_meter source "purpose @installed_at first_register @removed_at \
              last_register""",
              """
              SELECT m.code, y.code, s.code, m.role, m.unit, m.multiplier, m.register_digits,
                m.accuracy_percent, m.size_mm, m.type, m.parent_meter, m.source, m.purpose,
                m.installed_at, m.first_register, m.removed_at, m.last_register
              FROM site_meter m JOIN site_site s ON s.id = m.site_id
              LEFT JOIN site_system y ON y.id = m.system_id
              ORDER BY m.code"""),
          ExportFile.of(
                  "register_readings",
                  "meter ~read_at register kind \"note doubtful",
                  """
              SELECT m.code, r.read_at, r.register, r.kind, r.note, r.implausible, s.time_zone,
                r.give_or_take_hours
              FROM meter_register_reading r JOIN site_meter m ON m.id = r.meter_id
              JOIN site_site s ON s.id = m.site_id
              ORDER BY r.meter_id, r.read_at""")
              .lastOnlyIf(
                  "SELECT 1 FROM meter_register_reading WHERE implausible FETCH FIRST 1 ROW ONLY"),
          ExportFile.of(
              "interval_volumes",
              "meter @start minutes volume_l",
              """
              SELECT m.code, v.start_at, v.minutes, v.volume_l
              FROM meter_interval_volume v JOIN site_meter m ON m.id = v.meter_id
              ORDER BY v.meter_id, v.start_at"""),
          ExportFile.of(
              "water_samples",
              """
              system @taken_at makeup_conductivity_us_cm basin_conductivity_us_cm \
              makeup_chloride_mg_l basin_chloride_mg_l makeup_calcium_mg_l_caco3 \
              basin_calcium_mg_l_caco3""",
              """
              SELECT y.code, w.taken_at, w.makeup_conductivity_us_cm, w.basin_conductivity_us_cm,
                w.makeup_chloride_mg_l, w.basin_chloride_mg_l, w.makeup_calcium_mg_l_caco3,
                w.basin_calcium_mg_l_caco3
              FROM logsheet_water_sample w JOIN site_system y ON y.id = w.system_id
              ORDER BY w.system_id, w.taken_at"""),
          ExportFile.of(
              "pressure_readings",
              "system @taken_at supply_kpa valve_inlet_kpa",
              """
              SELECT y.code, p.taken_at, p.supply_kpa, p.valve_inlet_kpa
              FROM logsheet_pressure p JOIN site_system y ON y.id = p.system_id
              ORDER BY p.system_id, p.taken_at"""),
          ExportFile.of(
              "heat_loads",
              """
              system @start @end heat_rejected_gj chilled_water_kwh kw_per_ton chiller_kwh \
              running_hours average_load_percent hot_water_c cold_water_c water_flow_l_s \
              error_percent""",
              """
              SELECT y.code, h.start_at, h.end_at, h.heat_rejected_gj, h.chilled_water_kwh,
                h.kw_per_ton, h.chiller_kwh, h.running_hours, h.average_load_percent,
                h.hot_water_c, h.cold_water_c, h.water_flow_l_s, h.error_percent
              FROM logsheet_heat_load h JOIN site_system y ON y.id = h.system_id
              ORDER BY h.system_id, h.start_at, h.end_at"""),
          ExportFile.of(
              "visits",
              """
              system @visited_at events drained_l findings basin_conductivity_handheld_us_cm \
              basin_conductivity_controller_us_cm basin_temperature_c "observation "work_done""",
              """
              SELECT y.code, v.visited_at, v.events, v.drained_l, v.findings,
                v.basin_conductivity_handheld_us_cm, v.basin_conductivity_controller_us_cm,
                v.basin_temperature_c, v.observation, v.work_done
              FROM logsheet_visit v JOIN site_system y ON y.id = v.system_id
              ORDER BY v.system_id, v.visited_at"""),
          ExportFile.of(
              "weather_stations",
              "station \"name latitude_deg longitude_deg elevation_m source typical_year",
              """
              SELECT code, name, latitude_deg, longitude_deg, elevation_m, source, typical_year
              FROM weather_station ORDER BY code"""),
          ExportFile.of(
              "weather_hours",
              """
              station @hour_start dry_bulb_c wet_bulb_c dew_point_c relative_humidity_percent \
              pressure_kpa""",
              """
              SELECT station, hour_start, dry_bulb_c, wet_bulb_c, dew_point_c,
                relative_humidity_percent, pressure_kpa
              FROM weather_hour ORDER BY station, hour_start"""),
          ExportFile.of(
              "rate_schedules",
              """
              schedule service effective_from billing_unit "name months_per_bill minimum_charge \
              surcharge_percent tax_percent sewer_basis sewer_percent winter_months \
              evaporation_credit credit_percent credit_minimum_units credit_cap_percent \
              "credit_deadline""",
              """
              SELECT schedule, service, effective_from, billing_unit, name, months_per_bill,
                minimum_charge, surcharge_percent, tax_percent, sewer_basis, sewer_percent,
                winter_months, evaporation_credit, credit_percent, credit_minimum_units,
                credit_cap_percent, credit_deadline
              FROM tariff_schedule ORDER BY schedule, effective_from"""),
          ExportFile.of(
              "rate_charges",
              "schedule effective_from \"charge meter_size_mm amount",
              """
              SELECT schedule, effective_from, charge, meter_size_mm, amount
              FROM tariff_charge ORDER BY schedule, effective_from, charge, meter_size_mm"""),
          ExportFile.of(
              "rate_blocks",
              "schedule effective_from first_month last_month meter_size_mm from_units rate",
              """
              SELECT schedule, effective_from, first_month, last_month, meter_size_mm, from_units,
                rate
              FROM tariff_block
              ORDER BY schedule, effective_from, first_month, meter_size_mm, from_units"""),
          ExportFile.of(
              "utility_bills",
              "site service from to units amount credit_amount estimated",
              """
              SELECT s.code, b.service, b.from_date, b.to_date, b.units, b.amount,
                b.credit_amount, b.estimated
              FROM tariff_utility_bill b JOIN site_site s ON s.id = b.site_id
              ORDER BY s.code, b.service, b.from_date"""),
          ExportFile.of(
              "ledger_revisions",
              """
              system month revision status model_version "reason @created_at evidence makeup_l \
              expected_makeup_l expected_low_l expected_high_l unaccounted_l unaccounted_low_l \
              unaccounted_high_l evaporation_l drift_l needed_blowdown_l excess_loss_l \
              fresh_loss_l other_use_l storage_change_l meter_correction_l residual_l blowdown_l \
              gross_loss_l loss_l loss_low_l loss_high_l cycles target_cycles flagged waste \
              likeliest_cause cause_probability second_cause second_probability cause_set \
              @detected_at currency loss_amount loss_amount_low loss_amount_high \
              expected_water_amount evaporation_credit_amount credit_claimed_amount input_hash \
              figures_hash standing @closed_at working""",
              """
              SELECT y.code, r.month_start, r.revision, r.status, r.model_version, r.reason,
                r.created_at, r.evidence, r.makeup_l, r.expected_makeup_l, r.expected_low_l,
                r.expected_high_l, r.unaccounted_l, r.unaccounted_low_l, r.unaccounted_high_l,
                r.evaporation_l, r.drift_l, r.needed_blowdown_l, r.excess_loss_l, r.fresh_loss_l,
                r.other_use_l, r.storage_change_l, r.meter_correction_l, r.residual_l,
                r.blowdown_l, r.gross_loss_l, r.loss_l, r.loss_low_l, r.loss_high_l, r.cycles,
                r.target_cycles, r.flagged, r.waste, r.likeliest_cause, r.cause_probability,
                r.second_cause, r.second_probability, r.cause_set, r.detected_at, r.currency,
                r.loss_amount, r.loss_amount_low, r.loss_amount_high, r.expected_water_amount,
                r.evaporation_credit_amount, r.credit_claimed_amount, r.input_hash,
                r.figures_hash, m.status, m.closed_at, r.working
              FROM ledger_revision r JOIN site_system y ON y.id = r.system_id
              LEFT JOIN ledger_month m ON m.system_id = r.system_id
                AND m.month_start = r.month_start AND m.revision = r.revision
              ORDER BY y.code, r.month_start, r.revision"""));
}
