-- The lines of thirteen months in the month review need the bounds expected; with them, the review opens
-- the wide revisions of the rows it shows and of no other month. Money lost by month is added up from
-- the index alone.
ALTER TABLE ledger_month ADD COLUMN expected_low_l DOUBLE PRECISION;
ALTER TABLE ledger_month ADD COLUMN expected_high_l DOUBLE PRECISION;
UPDATE ledger_month SET (expected_low_l, expected_high_l) =
  (SELECT r.expected_low_l, r.expected_high_l FROM ledger_revision r
    WHERE r.system_id = ledger_month.system_id AND r.month_start = ledger_month.month_start
      AND r.revision = ledger_month.revision);
CREATE INDEX ledger_slot_month_loss_ix ON ledger_slot_month
  (month_start, currency, loss_amount, loss_amount_squares);
