-- A revision of a month is added to and never changed, as the history of who did what.

CREATE FUNCTION ledger_revision_is_final() RETURNS TRIGGER LANGUAGE plpgsql AS $$
BEGIN
  RAISE EXCEPTION 'ledger_revision only grows: a line of history is neither changed nor removed';
END $$;

CREATE TRIGGER ledger_revision_final BEFORE UPDATE OR DELETE OR TRUNCATE ON ledger_revision
  FOR EACH STATEMENT EXECUTE FUNCTION ledger_revision_is_final();
