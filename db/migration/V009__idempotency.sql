-- Answers already given to POSTs that carried an Idempotency-Key, so that a retry is the same answer.

CREATE TABLE api_idempotency (
  idempotency_key VARCHAR(200) NOT NULL,
  owner           VARCHAR(254) NOT NULL,
  request_hash    VARCHAR(64)  NOT NULL,
  status          INT,
  content_type    VARCHAR(100),
  body            TEXT,
  created_at      TIMESTAMP WITH TIME ZONE NOT NULL,
  CONSTRAINT api_idempotency_pk PRIMARY KEY (owner, idempotency_key)
);
