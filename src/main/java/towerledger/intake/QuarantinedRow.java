package towerledger.intake;

import java.time.Instant;
import java.util.List;
import java.util.Optional;

/**
 * A row that could not be taken, as the office sees it.
 *
 * @param id its key
 * @param importId the import it came with last
 * @param file name of the file without {@code .csv}
 * @param line its line in that file
 * @param columns names of its cells, in order
 * @param raw its text as it came
 * @param reason why it was not taken and how to mend it
 * @param status how it stands
 * @param createdAt when it came first
 * @param settledBy who mended or dropped it
 */
public record QuarantinedRow(
    long id,
    String importId,
    String file,
    long line,
    List<String> columns,
    String raw,
    String reason,
    Status status,
    Instant createdAt,
    Optional<String> settledBy) {

  public QuarantinedRow {
    columns = List.copyOf(columns);
  }

  /** How a row in quarantine stands. */
  public enum Status {
    WAITING,
    /** Taken after all. */
    MENDED,
    /** Somebody decided that it is not to be taken. */
    DROPPED;

    String code() {
      return name().toLowerCase(java.util.Locale.ROOT);
    }
  }
}
