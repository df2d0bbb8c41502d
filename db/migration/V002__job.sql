-- Work that outlives a request. scheduled_tasks is db-scheduler's own table; job_run is what people see.

CREATE TABLE scheduled_tasks (
  task_name            VARCHAR(100) NOT NULL,
  task_instance        VARCHAR(100) NOT NULL,
  task_data            BYTEA,
  execution_time       TIMESTAMP WITH TIME ZONE NOT NULL,
  picked               BOOLEAN NOT NULL,
  picked_by            VARCHAR(50),
  last_success         TIMESTAMP WITH TIME ZONE,
  last_failure         TIMESTAMP WITH TIME ZONE,
  consecutive_failures INT,
  last_heartbeat       TIMESTAMP WITH TIME ZONE,
  version              BIGINT NOT NULL,
  priority             SMALLINT,
  CONSTRAINT scheduled_tasks_pk PRIMARY KEY (task_name, task_instance)
);
CREATE INDEX scheduled_tasks_execution_ix ON scheduled_tasks (execution_time);
CREATE INDEX scheduled_tasks_heartbeat_ix ON scheduled_tasks (last_heartbeat);
CREATE INDEX scheduled_tasks_priority_ix ON scheduled_tasks (priority DESC, execution_time ASC);

CREATE TABLE job_run (
  id          VARCHAR(36)  NOT NULL,
  kind        VARCHAR(40)  NOT NULL,
  status      VARCHAR(10)  NOT NULL,
  progress    INT          DEFAULT 0 NOT NULL,
  message     VARCHAR(2000) DEFAULT '' NOT NULL,
  payload     TEXT,
  customer_id BIGINT,
  actor       VARCHAR(254) NOT NULL,
  created_at  TIMESTAMP WITH TIME ZONE NOT NULL,
  started_at  TIMESTAMP WITH TIME ZONE,
  finished_at TIMESTAMP WITH TIME ZONE,
  CONSTRAINT job_run_pk PRIMARY KEY (id),
  CONSTRAINT job_run_status_ck CHECK (
    CASE status WHEN 'queued' THEN TRUE WHEN 'running' THEN TRUE WHEN 'done' THEN TRUE
      WHEN 'failed' THEN TRUE ELSE status IS NULL END),
  CONSTRAINT job_run_progress_ck CHECK (progress BETWEEN 0 AND 100),
  CONSTRAINT job_run_customer_fk FOREIGN KEY (customer_id) REFERENCES account_customer (id)
);
CREATE INDEX job_run_created_ix ON job_run (created_at);
