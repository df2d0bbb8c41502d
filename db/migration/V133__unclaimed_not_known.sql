-- Where no credit can be worked out, nothing is known to be unclaimed, which is not nought.
ALTER TABLE ledger_slot_month ALTER COLUMN credit_unclaimed DROP NOT NULL;
UPDATE ledger_slot_month SET credit_unclaimed = NULL
WHERE credit_unclaimed = 0 AND NOT EXISTS (
  SELECT 1 FROM ledger_month m
  WHERE m.month_start = ledger_slot_month.month_start AND m.slot = ledger_slot_month.slot
    AND m.currency = ledger_slot_month.currency
    AND m.makeup_l IS NOT NULL AND m.evaporation_credit_amount IS NOT NULL);
