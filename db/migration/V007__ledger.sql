-- The ledger. A revision is added, never changed; ledger_month points at the one that stands and
-- carries what the month review sorts and filters by. working is gzipped JSON: the whole derivation.

CREATE TABLE ledger_revision (
  customer_id   BIGINT      NOT NULL,
  system_id     BIGINT      NOT NULL,
  month_start         DATE        NOT NULL,
  revision      INT         NOT NULL,
  status        VARCHAR(12) NOT NULL,
  model_version VARCHAR(20) NOT NULL,
  input_hash    CHAR(64)    NOT NULL,
  figures_hash  CHAR(64)    NOT NULL,
  reason        VARCHAR(500) NOT NULL,
  created_at    TIMESTAMP WITH TIME ZONE NOT NULL,
  evidence      CHAR(1),
  makeup_l              DOUBLE PRECISION,
  expected_makeup_l     DOUBLE PRECISION,
  expected_low_l        DOUBLE PRECISION,
  expected_high_l       DOUBLE PRECISION,
  unaccounted_l         DOUBLE PRECISION,
  unaccounted_low_l     DOUBLE PRECISION,
  unaccounted_high_l    DOUBLE PRECISION,
  evaporation_l         DOUBLE PRECISION,
  drift_l               DOUBLE PRECISION,
  needed_blowdown_l     DOUBLE PRECISION,
  excess_loss_l         DOUBLE PRECISION,
  fresh_loss_l          DOUBLE PRECISION,
  other_use_l           DOUBLE PRECISION,
  storage_change_l      DOUBLE PRECISION,
  meter_correction_l    DOUBLE PRECISION,
  residual_l            DOUBLE PRECISION,
  blowdown_l            DOUBLE PRECISION,
  gross_loss_l          DOUBLE PRECISION,
  loss_l                DOUBLE PRECISION,
  loss_low_l            DOUBLE PRECISION,
  loss_high_l           DOUBLE PRECISION,
  cycles                DOUBLE PRECISION,
  target_cycles         DOUBLE PRECISION,
  flagged               BOOLEAN NOT NULL,
  waste                 BOOLEAN NOT NULL,
  likeliest_cause       VARCHAR(30),
  cause_probability     DOUBLE PRECISION,
  second_cause          VARCHAR(30),
  second_probability    DOUBLE PRECISION,
  cause_set             VARCHAR(300),
  detected_at           TIMESTAMP WITH TIME ZONE,
  currency              CHAR(3),
  loss_amount           NUMERIC(19, 4),
  loss_amount_low       NUMERIC(19, 4),
  loss_amount_high      NUMERIC(19, 4),
  expected_water_amount NUMERIC(19, 4),
  evaporation_credit_amount NUMERIC(19, 4),
  credit_claimed_amount NUMERIC(19, 4),
  working               BYTEA NOT NULL,
  CONSTRAINT ledger_revision_pk PRIMARY KEY (system_id, month_start, revision),
  CONSTRAINT ledger_revision_system_fk FOREIGN KEY (system_id) REFERENCES site_system (id),
  CONSTRAINT ledger_revision_status_ck
    CHECK (
    CASE status WHEN 'open' THEN TRUE WHEN 'provisional' THEN TRUE WHEN 'closed' THEN TRUE
      WHEN 'restated' THEN TRUE ELSE status IS NULL END),
  CONSTRAINT ledger_revision_evidence_ck CHECK (
    CASE evidence WHEN 'A' THEN TRUE WHEN 'B' THEN TRUE WHEN 'C' THEN TRUE
      WHEN 'D' THEN TRUE ELSE evidence IS NULL END),
  CONSTRAINT ledger_revision_number_ck CHECK (revision >= 1)
);

CREATE TABLE ledger_month (
  customer_id  BIGINT  NOT NULL,
  site_id      BIGINT  NOT NULL,
  system_id    BIGINT  NOT NULL,
  month_start        DATE    NOT NULL,
  revision     INT     NOT NULL,
  status       VARCHAR(12) NOT NULL,
  closed_at    TIMESTAMP WITH TIME ZONE,
  evidence     CHAR(1),
  flagged      BOOLEAN NOT NULL,
  waste        BOOLEAN NOT NULL,
  likeliest_cause VARCHAR(30),
  makeup_l     DOUBLE PRECISION,
  expected_makeup_l DOUBLE PRECISION,
  unaccounted_l DOUBLE PRECISION,
  loss_l       DOUBLE PRECISION,
  loss_amount  NUMERIC(19, 4),
  currency     CHAR(3),
  evaporation_credit_amount NUMERIC(19, 4),
  credit_claimed_amount NUMERIC(19, 4),
  CONSTRAINT ledger_month_pk PRIMARY KEY (system_id, month_start),
  CONSTRAINT ledger_month_revision_fk
    FOREIGN KEY (system_id, month_start, revision)
    REFERENCES ledger_revision (system_id, month_start, revision),
  CONSTRAINT ledger_month_status_ck
    CHECK (
    CASE status WHEN 'open' THEN TRUE WHEN 'provisional' THEN TRUE WHEN 'closed' THEN TRUE
      WHEN 'restated' THEN TRUE ELSE status IS NULL END)
);
CREATE INDEX ledger_month_review_ix ON ledger_month (month_start, loss_amount);
CREATE INDEX ledger_month_customer_ix ON ledger_month (customer_id, month_start);

-- Systems with months whose facts changed since they were last reckoned; reconciliation empties it.
-- A null bound is no bound.
CREATE TABLE ledger_stale (
  system_id   BIGINT NOT NULL,
  site_id     BIGINT NOT NULL,
  first_month DATE,
  last_month  DATE,
  reason      VARCHAR(500) NOT NULL,
  marked_at   TIMESTAMP WITH TIME ZONE NOT NULL,
  CONSTRAINT ledger_stale_pk PRIMARY KEY (system_id)
);
CREATE INDEX ledger_stale_site_ix ON ledger_stale (site_id);
