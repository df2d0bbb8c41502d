-- The month review sorts, filters, pages and sums what stands in a month. ledger_month now carries
-- all it needs for that, so that no wide revision is opened but those of the rows shown; and the sums
-- over everything are kept, one row a slot of sites (that of ledger_turn: whoever reckons a site holds
-- it), month and currency, written anew whenever a site of the slot is reckoned.

ALTER TABLE ledger_month ADD COLUMN slot INT;
ALTER TABLE ledger_month ADD COLUMN unaccounted_low_l DOUBLE PRECISION;
ALTER TABLE ledger_month ADD COLUMN unaccounted_high_l DOUBLE PRECISION;
ALTER TABLE ledger_month ADD COLUMN loss_low_l DOUBLE PRECISION;
ALTER TABLE ledger_month ADD COLUMN loss_high_l DOUBLE PRECISION;
ALTER TABLE ledger_month ADD COLUMN loss_amount_low NUMERIC(19, 4);
ALTER TABLE ledger_month ADD COLUMN loss_amount_high NUMERIC(19, 4);
ALTER TABLE ledger_month ADD COLUMN evaporation_l DOUBLE PRECISION;
ALTER TABLE ledger_month ADD COLUMN drift_l DOUBLE PRECISION;

UPDATE ledger_month SET (slot, unaccounted_low_l, unaccounted_high_l, loss_low_l, loss_high_l,
    loss_amount_low, loss_amount_high, evaporation_l, drift_l) =
  (SELECT MOD(ledger_month.site_id, 256), r.unaccounted_low_l, r.unaccounted_high_l, r.loss_low_l,
      r.loss_high_l, r.loss_amount_low, r.loss_amount_high, r.evaporation_l, r.drift_l
    FROM ledger_revision r
    WHERE r.system_id = ledger_month.system_id AND r.month_start = ledger_month.month_start
      AND r.revision = ledger_month.revision);
ALTER TABLE ledger_month ALTER COLUMN slot SET NOT NULL;

-- the order in which the review opens: dearest first
DROP INDEX ledger_month_review_ix;
CREATE INDEX ledger_month_review_ix ON ledger_month
  (month_start, loss_amount DESC NULLS LAST, flagged DESC, loss_l DESC NULLS LAST, system_id);
-- what wasting systems cost, by month and customer
CREATE INDEX ledger_month_waste_ix ON ledger_month
  (waste, month_start, customer_id, currency, loss_amount, loss_amount_low, loss_amount_high);
-- months that wait to be closed
CREATE INDEX ledger_month_status_ix ON ledger_month (status, month_start);
CREATE INDEX ledger_month_slot_ix ON ledger_month (slot, month_start);
CREATE INDEX ledger_month_site_ix ON ledger_month (site_id, month_start);

CREATE TABLE ledger_slot_month (
  slot                 INT              NOT NULL,
  month_start          DATE             NOT NULL,
  currency             CHAR(3)          NOT NULL,
  systems              INT              NOT NULL,
  metered              INT              NOT NULL,
  wasting              INT              NOT NULL,
  makeup_l             DOUBLE PRECISION NOT NULL,
  sound_l              DOUBLE PRECISION NOT NULL,
  -- sums of the squares of half-widths
  sound_squares_l2     DOUBLE PRECISION NOT NULL,
  loss_l               DOUBLE PRECISION NOT NULL,
  loss_squares_l2      DOUBLE PRECISION NOT NULL,
  loss_amount          NUMERIC(23, 4)   NOT NULL,
  loss_amount_squares  DOUBLE PRECISION NOT NULL,
  credit_unclaimed     NUMERIC(23, 4)   NOT NULL,
  CONSTRAINT ledger_slot_month_pk PRIMARY KEY (month_start, slot, currency)
);

INSERT INTO ledger_slot_month (slot, month_start, currency, systems, metered, wasting, makeup_l,
  sound_l, sound_squares_l2, loss_l, loss_squares_l2, loss_amount, loss_amount_squares,
  credit_unclaimed)
SELECT m.slot, m.month_start, m.currency, COUNT(*), COUNT(m.makeup_l),
  SUM(CASE WHEN m.waste THEN 1 ELSE 0 END),
  COALESCE(SUM(m.makeup_l), 0),
  COALESCE(SUM(m.makeup_l - m.unaccounted_l), 0),
  COALESCE(SUM(POWER((m.unaccounted_high_l - m.unaccounted_low_l) / 2, 2)), 0),
  COALESCE(SUM(CASE WHEN m.waste THEN m.loss_l END), 0),
  COALESCE(SUM(CASE WHEN m.waste THEN POWER((m.loss_high_l - m.loss_low_l) / 2, 2) END), 0),
  COALESCE(SUM(CASE WHEN m.waste THEN m.loss_amount END), 0),
  COALESCE(SUM(CASE WHEN m.waste
    THEN POWER((m.loss_amount_high - m.loss_amount_low) / 2, 2) END), 0),
  COALESCE(SUM(CASE WHEN m.evaporation_credit_amount > COALESCE(m.credit_claimed_amount, 0)
    THEN m.evaporation_credit_amount - COALESCE(m.credit_claimed_amount, 0) END), 0)
FROM ledger_month m
GROUP BY m.slot, m.month_start, m.currency;

-- What a site evaporated in a calendar year, and the sewer credit it was due and got for it; written
-- anew whenever the site is reckoned.
CREATE TABLE ledger_site_year (
  customer_id  BIGINT           NOT NULL,
  site_id      BIGINT           NOT NULL,
  of_year      INT              NOT NULL,
  evaporated_l DOUBLE PRECISION NOT NULL,
  due          NUMERIC(23, 4),
  credited     NUMERIC(23, 4),
  unclaimed    NUMERIC(23, 4),
  CONSTRAINT ledger_site_year_pk PRIMARY KEY (site_id, of_year)
);
CREATE INDEX ledger_site_year_unclaimed_ix ON ledger_site_year (of_year, unclaimed DESC NULLS LAST, site_id);

INSERT INTO ledger_site_year (customer_id, site_id, of_year, evaporated_l, due, credited, unclaimed)
SELECT MAX(m.customer_id), m.site_id, EXTRACT(YEAR FROM m.month_start),
  COALESCE(SUM(m.evaporation_l), 0) + COALESCE(SUM(m.drift_l), 0),
  SUM(m.evaporation_credit_amount), SUM(m.credit_claimed_amount),
  SUM(CASE WHEN m.evaporation_credit_amount > COALESCE(m.credit_claimed_amount, 0)
    THEN m.evaporation_credit_amount - COALESCE(m.credit_claimed_amount, 0)
    WHEN m.evaporation_credit_amount IS NOT NULL THEN 0 END)
FROM ledger_month m
GROUP BY m.site_id, EXTRACT(YEAR FROM m.month_start);
