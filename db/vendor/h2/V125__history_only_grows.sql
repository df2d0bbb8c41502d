-- History is added to and never changed, whoever asks: the database itself refuses. (H2 asks no
-- trigger before TRUNCATE.)

CREATE TRIGGER account_change_final BEFORE UPDATE, DELETE ON account_change
  FOR EACH ROW CALL 'towerledger.account.OnlyGrows';
