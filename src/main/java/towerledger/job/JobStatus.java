package towerledger.job;

import java.util.Locale;

/** How a job stands. */
public enum JobStatus {
  QUEUED,
  RUNNING,
  DONE,
  FAILED;

  /** The word used in the database and by the REST contract. */
  public String code() {
    return name().toLowerCase(Locale.ROOT);
  }

  /** Whether nothing more will happen. */
  public boolean isFinal() {
    return this == DONE || this == FAILED;
  }
}
