-- What the evaporation of a month may be off by (half of its 95 % interval), kept where sums are made of
-- it. Lasting errors (of the load, of the tower model) do not cancel from month to month or tower to
-- tower, so half-widths are added up as they are.
ALTER TABLE ledger_month ADD COLUMN evaporation_half_l DOUBLE PRECISION;
ALTER TABLE ledger_site_year ADD COLUMN evaporated_half_l DOUBLE PRECISION;
