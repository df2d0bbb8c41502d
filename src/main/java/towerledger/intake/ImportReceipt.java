package towerledger.intake;

import java.util.List;

/**
 * What became of an import.
 *
 * @param id its identity
 * @param files one receipt a file, in the order in which they were taken
 * @param reconciliation the reckoning it set off
 */
public record ImportReceipt(String id, List<FileReceipt> files, Reconciliation reconciliation) {

  public ImportReceipt {
    files = List.copyOf(files);
  }

  /**
   * The job that reckons the touched months anew.
   *
   * @param id to ask the job's state by
   * @param status {@code done} at once where nothing changed
   */
  public record Reconciliation(String id, String status) {}
}
