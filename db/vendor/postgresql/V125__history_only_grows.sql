-- History is added to and never changed, whoever asks: the database itself refuses.

CREATE FUNCTION account_change_is_final() RETURNS TRIGGER LANGUAGE plpgsql AS $$
BEGIN
  RAISE EXCEPTION 'account_change only grows: a line of history is neither changed nor removed';
END $$;

CREATE TRIGGER account_change_final BEFORE UPDATE OR DELETE OR TRUNCATE ON account_change
  FOR EACH STATEMENT EXECUTE FUNCTION account_change_is_final();
