-- What was read, logged and measured, in bulk. Every key carries the time it would be partitioned
-- by; every table carries the customer it would be sharded by. A corrected value stays in *_correction.

CREATE TABLE meter_register_reading (
  customer_id BIGINT NOT NULL,
  meter_id    BIGINT NOT NULL,
  read_at     TIMESTAMP WITH TIME ZONE NOT NULL,
  register    NUMERIC(24, 6) NOT NULL,
  kind        VARCHAR(10) DEFAULT 'actual' NOT NULL,
  give_or_take_hours DOUBLE PRECISION DEFAULT 0 NOT NULL,
  implausible BOOLEAN DEFAULT FALSE NOT NULL,
  note        VARCHAR(1000),
  recorded_at TIMESTAMP WITH TIME ZONE NOT NULL,
  recorded_by VARCHAR(254) NOT NULL,
  CONSTRAINT meter_register_reading_pk PRIMARY KEY (meter_id, read_at),
  CONSTRAINT meter_register_reading_meter_fk FOREIGN KEY (meter_id) REFERENCES site_meter (id),
  CONSTRAINT meter_register_reading_register_ck CHECK (register >= 0),
  CONSTRAINT meter_register_reading_kind_ck CHECK (
    CASE kind WHEN 'actual' THEN TRUE WHEN 'estimated' THEN TRUE ELSE kind IS NULL END)
);

CREATE TABLE meter_register_correction (
  customer_id BIGINT NOT NULL,
  meter_id    BIGINT NOT NULL,
  read_at     TIMESTAMP WITH TIME ZONE NOT NULL,
  replaced_at TIMESTAMP WITH TIME ZONE NOT NULL,
  register    NUMERIC(24, 6) NOT NULL,
  kind        VARCHAR(10) NOT NULL,
  note        VARCHAR(1000),
  recorded_at TIMESTAMP WITH TIME ZONE NOT NULL,
  recorded_by VARCHAR(254) NOT NULL,
  CONSTRAINT meter_register_correction_pk PRIMARY KEY (meter_id, read_at, replaced_at)
);

CREATE TABLE meter_interval_volume (
  customer_id BIGINT NOT NULL,
  meter_id    BIGINT NOT NULL,
  start_at    TIMESTAMP WITH TIME ZONE NOT NULL,
  minutes     SMALLINT NOT NULL,
  volume_l    DOUBLE PRECISION NOT NULL,
  CONSTRAINT meter_interval_volume_pk PRIMARY KEY (meter_id, start_at),
  CONSTRAINT meter_interval_volume_minutes_ck CHECK (minutes BETWEEN 1 AND 1440),
  CONSTRAINT meter_interval_volume_volume_ck CHECK (volume_l >= 0)
);

CREATE TABLE meter_interval_correction (
  customer_id BIGINT NOT NULL,
  meter_id    BIGINT NOT NULL,
  start_at    TIMESTAMP WITH TIME ZONE NOT NULL,
  replaced_at TIMESTAMP WITH TIME ZONE NOT NULL,
  minutes     SMALLINT NOT NULL,
  volume_l    DOUBLE PRECISION NOT NULL,
  CONSTRAINT meter_interval_correction_pk PRIMARY KEY (meter_id, start_at, replaced_at)
);

CREATE TABLE logsheet_water_sample (
  customer_id BIGINT NOT NULL,
  system_id   BIGINT NOT NULL,
  taken_at    TIMESTAMP WITH TIME ZONE NOT NULL,
  makeup_conductivity_us_cm   DOUBLE PRECISION,
  basin_conductivity_us_cm    DOUBLE PRECISION,
  makeup_chloride_mg_l        DOUBLE PRECISION,
  basin_chloride_mg_l         DOUBLE PRECISION,
  makeup_calcium_mg_l_caco3   DOUBLE PRECISION,
  basin_calcium_mg_l_caco3    DOUBLE PRECISION,
  CONSTRAINT logsheet_water_sample_pk PRIMARY KEY (system_id, taken_at),
  CONSTRAINT logsheet_water_sample_system_fk FOREIGN KEY (system_id) REFERENCES site_system (id),
  CONSTRAINT logsheet_water_sample_positive_ck CHECK (
    makeup_conductivity_us_cm >= 0 AND basin_conductivity_us_cm >= 0
    AND makeup_chloride_mg_l >= 0 AND basin_chloride_mg_l >= 0
    AND makeup_calcium_mg_l_caco3 >= 0 AND basin_calcium_mg_l_caco3 >= 0)
);

CREATE TABLE logsheet_pressure (
  customer_id     BIGINT NOT NULL,
  system_id       BIGINT NOT NULL,
  taken_at        TIMESTAMP WITH TIME ZONE NOT NULL,
  supply_kpa      DOUBLE PRECISION,
  valve_inlet_kpa DOUBLE PRECISION,
  CONSTRAINT logsheet_pressure_pk PRIMARY KEY (system_id, taken_at),
  CONSTRAINT logsheet_pressure_system_fk FOREIGN KEY (system_id) REFERENCES site_system (id),
  CONSTRAINT logsheet_pressure_positive_ck CHECK (supply_kpa >= 0 AND valve_inlet_kpa >= 0)
);

CREATE TABLE logsheet_heat_load (
  customer_id             BIGINT NOT NULL,
  system_id               BIGINT NOT NULL,
  start_at                TIMESTAMP WITH TIME ZONE NOT NULL,
  end_at                  TIMESTAMP WITH TIME ZONE NOT NULL,
  heat_rejected_gj        DOUBLE PRECISION,
  chilled_water_kwh       DOUBLE PRECISION,
  kw_per_ton              DOUBLE PRECISION,
  chiller_kwh             DOUBLE PRECISION,
  running_hours           DOUBLE PRECISION,
  average_load_percent    DOUBLE PRECISION,
  hot_water_c             DOUBLE PRECISION,
  cold_water_c            DOUBLE PRECISION,
  water_flow_l_s          DOUBLE PRECISION,
  error_percent           DOUBLE PRECISION,
  CONSTRAINT logsheet_heat_load_pk PRIMARY KEY (system_id, start_at, end_at),
  CONSTRAINT logsheet_heat_load_system_fk FOREIGN KEY (system_id) REFERENCES site_system (id),
  CONSTRAINT logsheet_heat_load_span_ck CHECK (end_at > start_at)
);

CREATE TABLE logsheet_visit (
  customer_id  BIGINT NOT NULL,
  system_id    BIGINT NOT NULL,
  visited_at   TIMESTAMP WITH TIME ZONE NOT NULL,
  events       VARCHAR(500),
  drained_l    DOUBLE PRECISION,
  findings     VARCHAR(1000),
  basin_conductivity_handheld_us_cm   DOUBLE PRECISION,
  basin_conductivity_controller_us_cm DOUBLE PRECISION,
  basin_temperature_c DOUBLE PRECISION,
  observation  VARCHAR(4000),
  work_done    VARCHAR(4000),
  CONSTRAINT logsheet_visit_pk PRIMARY KEY (system_id, visited_at),
  CONSTRAINT logsheet_visit_system_fk FOREIGN KEY (system_id) REFERENCES site_system (id),
  CONSTRAINT logsheet_visit_drained_ck CHECK (drained_l >= 0)
);

-- Older values of corrected log rows, whole, as JSON under the names of the interchange file.
CREATE TABLE logsheet_correction (
  customer_id BIGINT NOT NULL,
  system_id   BIGINT NOT NULL,
  log_kind    VARCHAR(20) NOT NULL,
  at          TIMESTAMP WITH TIME ZONE NOT NULL,
  replaced_at TIMESTAMP WITH TIME ZONE NOT NULL,
  old_json    TEXT NOT NULL,
  CONSTRAINT logsheet_correction_pk PRIMARY KEY (system_id, log_kind, at, replaced_at),
  CONSTRAINT logsheet_correction_kind_ck
    CHECK (
    CASE log_kind WHEN 'water_sample' THEN TRUE WHEN 'pressure' THEN TRUE
      WHEN 'heat_load' THEN TRUE WHEN 'visit' THEN TRUE ELSE log_kind IS NULL END)
);

CREATE TABLE weather_station (
  code          VARCHAR(40) NOT NULL,
  name          VARCHAR(200),
  latitude_deg  DOUBLE PRECISION,
  longitude_deg DOUBLE PRECISION,
  elevation_m   DOUBLE PRECISION,
  source        VARCHAR(40) DEFAULT 'csv' NOT NULL,
  typical_year  BOOLEAN DEFAULT FALSE NOT NULL,
  created_at    TIMESTAMP WITH TIME ZONE NOT NULL,
  CONSTRAINT weather_station_pk PRIMARY KEY (code),
  CONSTRAINT weather_station_latitude_ck CHECK (latitude_deg BETWEEN -90 AND 90),
  CONSTRAINT weather_station_longitude_ck CHECK (longitude_deg BETWEEN -180 AND 180)
);

-- Exactly one humidity is given as it came; wet bulb is worked out from it when the hours are read.
CREATE TABLE weather_hour (
  station                   VARCHAR(40) NOT NULL,
  hour_start                TIMESTAMP WITH TIME ZONE NOT NULL,
  dry_bulb_c                DOUBLE PRECISION NOT NULL,
  wet_bulb_c                DOUBLE PRECISION,
  dew_point_c               DOUBLE PRECISION,
  relative_humidity_percent DOUBLE PRECISION,
  pressure_kpa              DOUBLE PRECISION,
  CONSTRAINT weather_hour_pk PRIMARY KEY (station, hour_start),
  CONSTRAINT weather_hour_station_fk FOREIGN KEY (station) REFERENCES weather_station (code),
  CONSTRAINT weather_hour_dry_bulb_ck CHECK (dry_bulb_c BETWEEN -90 AND 70),
  CONSTRAINT weather_hour_wet_bulb_ck CHECK (wet_bulb_c <= dry_bulb_c + 0.5),
  CONSTRAINT weather_hour_humidity_ck CHECK (relative_humidity_percent BETWEEN 0 AND 105),
  CONSTRAINT weather_hour_pressure_ck CHECK (pressure_kpa BETWEEN 30 AND 115)
);

CREATE TABLE weather_correction (
  station     VARCHAR(40) NOT NULL,
  hour_start  TIMESTAMP WITH TIME ZONE NOT NULL,
  replaced_at TIMESTAMP WITH TIME ZONE NOT NULL,
  old_json    TEXT NOT NULL,
  CONSTRAINT weather_correction_pk PRIMARY KEY (station, hour_start, replaced_at)
);
