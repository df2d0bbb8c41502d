package towerledger.intake.csv;

import java.util.List;
import org.jspecify.annotations.Nullable;

/**
 * One record of a table.
 *
 * @param line number of its first line, the header being line 1
 * @param raw its text as it came, without the line end
 * @param cells its cells; empty when {@code problem} says why they cannot be told apart
 * @param spansLines whether a quoted cell holds line ends
 * @param problem why the record cannot be read, or null
 */
public record CsvRecord(
    long line, String raw, List<String> cells, boolean spansLines, @Nullable String problem) {

  /** Whether no cell says anything. */
  public boolean isBlank() {
    return problem == null && cells.stream().allMatch(String::isBlank);
  }
}
