-- Mails wait in a table of their own, carried by threads of their own, so that a slow relay holds up
-- no other work; and when the office was told of a mail that did not arrive.

CREATE TABLE report_task (
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
  CONSTRAINT report_task_pk PRIMARY KEY (task_name, task_instance)
);
CREATE INDEX report_task_execution_ix ON report_task (execution_time);
CREATE INDEX report_task_heartbeat_ix ON report_task (last_heartbeat);

INSERT INTO report_task (task_name, task_instance, task_data, execution_time, picked, version)
SELECT task_name, task_instance, task_data, execution_time, FALSE, 1
FROM scheduled_tasks WHERE task_name = 'report-mail';
DELETE FROM scheduled_tasks WHERE task_name IN ('report-mail', 'report-bounces');

ALTER TABLE report_mail ADD COLUMN noticed_at TIMESTAMP WITH TIME ZONE;
UPDATE report_mail SET noticed_at = settled_at WHERE status IN ('refused', 'expired', 'bounced');
