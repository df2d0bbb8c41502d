-- A revision of a month is added to and never changed, as the history of who did what.

CREATE TRIGGER ledger_revision_final BEFORE UPDATE, DELETE ON ledger_revision
  FOR EACH ROW CALL 'towerledger.account.OnlyGrows';
