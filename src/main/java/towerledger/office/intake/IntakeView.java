package towerledger.office.intake;

import java.util.List;
import org.jspecify.annotations.Nullable;
import towerledger.intake.QuarantinedRow;
import towerledger.wording.ReasonText;

/** Pages of the intake as they are read. */
final class IntakeView {

  private IntakeView() {}

  /**
   * Where files are handed in.
   *
   * @param sentence how much waits
   * @param trouble why the last upload was refused; null when none was
   * @param imports the newest imports
   * @param sheets files of which more than one row waits
   * @param waiting rows that wait, newest first
   * @param more how many more wait than are listed
   */
  record Desk(
      String sentence,
      @Nullable String trouble,
      List<Import> imports,
      List<SheetLine> sheets,
      List<Waiting> waiting,
      long more) {}

  /** An import in the list. */
  record Import(String id, String when, String origin, String actor, String status, String says) {}

  /** A row that waits. */
  record Waiting(long id, String file, long line, String reason, String raw) {

    private static final int LONGEST = 160;

    static Waiting of(QuarantinedRow row, ReasonText reasons) {
      String raw = row.raw();
      return new Waiting(
          row.id(),
          row.file(),
          row.line(),
          reasons.say(row.reason()),
          raw.length() > LONGEST ? raw.substring(0, LONGEST) + "…" : raw);
    }
  }

  /** A file of which rows wait, with the reason of one of them. */
  record SheetLine(String importId, String file, String says, String reason) {}

  /**
   * The rows that wait of one file of an import.
   *
   * @param importId the import
   * @param file the file without {@code .csv}
   * @param sentence how many wait
   * @param rows as many as a page holds
   * @param after key of the row after which the next ones are tried again
   * @param before address of the rows before; null where there are none
   * @param next address of the rows after
   */
  record Sheet(
      String importId,
      String file,
      String sentence,
      List<Waiting> rows,
      long after,
      @Nullable String before,
      @Nullable String next) {}

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
   * @param sheets files of it of which rows wait to be mended
   */
  record Receipt(
      String id,
      String sentence,
      String about,
      @Nullable String error,
      List<File> files,
      @Nullable Reckoning reckoning,
      boolean running,
      List<SheetLine> sheets) {}

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
