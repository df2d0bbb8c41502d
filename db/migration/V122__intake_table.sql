-- A table of others lies here while somebody looks over how its columns map: between two pages, for a
-- day at most. Whatever application node shows the next page finds it.

CREATE TABLE intake_table (
  id         CHAR(36)     NOT NULL,
  actor      VARCHAR(254) NOT NULL,
  name       VARCHAR(200) NOT NULL,
  file       VARCHAR(40)  NOT NULL,
  sender     VARCHAR(80)  NOT NULL,
  content    BYTEA        NOT NULL,
  created_at TIMESTAMP WITH TIME ZONE NOT NULL,
  CONSTRAINT intake_table_pk PRIMARY KEY (id)
);

CREATE INDEX intake_table_created_ix ON intake_table (created_at);
