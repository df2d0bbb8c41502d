package towerledger.intake;

import java.io.IOException;
import java.io.UncheckedIOException;
import java.time.Instant;
import java.util.List;
import java.util.Optional;
import org.apache.commons.csv.CSVFormat;
import org.apache.commons.csv.CSVParser;
import org.apache.commons.csv.CSVRecord;

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

  /** A file of this row alone, as it came. */
  String asFile() {
    return asFile(raw);
  }

  /** A file of this row alone with its text mended. */
  String asFile(String mended) {
    return String.join(",", columns) + "\n" + mended;
  }

  /**
   * Its cells, in the order of the columns; empty where its text cannot be cut into as many, so
   * that it has to be mended as text.
   */
  public Optional<List<String>> cells() {
    for (char delimiter : new char[] {',', ';', '\t'}) {
      Optional<List<String>> cut = cut(delimiter);
      if (cut.isPresent() && cut.get().size() == columns.size()) {
        return cut;
      }
    }
    return Optional.empty();
  }

  private Optional<List<String>> cut(char delimiter) {
    try (CSVParser parser =
        CSVParser.parse(raw, CSVFormat.RFC4180.builder().setDelimiter(delimiter).get())) {
      List<CSVRecord> records = parser.getRecords();
      return records.size() == 1 ? Optional.of(records.get(0).toList()) : Optional.empty();
    } catch (IOException | UncheckedIOException e) {
      return Optional.empty();
    }
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
