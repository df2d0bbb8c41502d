package towerledger.office.intake;

import java.util.List;
import org.jspecify.annotations.Nullable;

/** Pages of the intake as they are read. */
final class IntakeView {

  private IntakeView() {}

  /**
   * Where files are handed in.
   *
   * @param sentence how much waits
   * @param trouble why the last upload was refused; null when none was
   * @param imports the newest imports
   * @param waiting rows that wait, newest first
   * @param more how many more wait than are listed
   */
  record Desk(
      String sentence,
      @Nullable String trouble,
      List<Import> imports,
      List<Waiting> waiting,
      long more) {}

  /** An import in the list. */
  record Import(String id, String when, String origin, String actor, String status, String says) {}

  /** A row that waits. */
  record Waiting(long id, String file, long line, String reason, String raw) {}

  /**
   * What became of an import.
   *
   * @param id its identity
   * @param sentence all of it in words
   * @param about who, when, from where
   * @param error why it failed; null when it did not
   * @param files a row a file
   * @param reckoning how the reckoning stands; null when none was set off
   * @param running whether the import itself is still at work
   * @param waits whether rows of it wait to be mended
   */
  record Receipt(
      String id,
      String sentence,
      String about,
      @Nullable String error,
      List<File> files,
      @Nullable Reckoning reckoning,
      boolean running,
      boolean waits) {}

  /** What became of a file's rows. */
  record File(
      String name,
      String rows,
      String added,
      String changed,
      String unchanged,
      String quarantined,
      List<String> reasons) {}

  /** How a job stands. */
  record Reckoning(String status, int progress, String message, boolean over) {}

  /**
   * A row to mend.
   *
   * @param id its key
   * @param about where it came from
   * @param reason why it was not taken
   * @param cells its cells; empty where it has to be mended as text
   * @param raw its text
   * @param settled how it was settled and by whom; null while it waits
   */
  record Mending(
      long id,
      String about,
      String reason,
      List<Cell> cells,
      String raw,
      @Nullable String settled) {}

  /**
   * A cell with its column.
   *
   * @param label the column in words
   * @param column its name in the file; empty where the words say the same
   */
  record Cell(String label, String column, String value) {}
}
