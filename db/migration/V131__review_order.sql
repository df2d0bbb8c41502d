-- The review lists what loses water first, the dearest before the others, then what is wrong without a
-- loss, then the rest. Sound systems have a priced loss too (within its interval zero), which put some of
-- them before systems that somebody has to look at.
DROP INDEX ledger_month_review_ix;
CREATE INDEX ledger_month_review_ix ON ledger_month
  (month_start, waste DESC, flagged DESC, loss_amount DESC NULLS LAST, loss_l DESC NULLS LAST, system_id);
