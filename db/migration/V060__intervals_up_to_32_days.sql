-- Green Button feeds tell intervals of a whole billing period, up to 32 days; a day was the most.

ALTER TABLE meter_interval_volume DROP CONSTRAINT meter_interval_volume_minutes_ck;
ALTER TABLE meter_interval_volume ALTER COLUMN minutes SET DATA TYPE INTEGER;
ALTER TABLE meter_interval_volume
  ADD CONSTRAINT meter_interval_volume_minutes_ck CHECK (minutes BETWEEN 1 AND 46080);
ALTER TABLE meter_interval_correction ALTER COLUMN minutes SET DATA TYPE INTEGER;
