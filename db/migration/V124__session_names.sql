-- A session is kept under the SHA-256 of its id, 64 hexadecimal digits, and no longer under the id
-- itself. Whoever was signed in signs in once more.

DELETE FROM spring_session;
ALTER TABLE spring_session ALTER COLUMN session_id SET DATA TYPE CHAR(64);
