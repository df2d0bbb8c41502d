-- How often what is added up of a slot of sites has changed: written by whoever changes it, in the same
-- transaction. As long as the sum of them stands still, what was added up before is still right.
ALTER TABLE ledger_turn ADD COLUMN changes BIGINT DEFAULT 0 NOT NULL;
