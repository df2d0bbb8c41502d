package towerledger.intake.file;

import java.util.List;
import towerledger.intake.csv.Columns;
import towerledger.intake.csv.Row;

/**
 * One file of the interchange format.
 *
 * @param <T> a row read and checked, ready to be taken
 */
public interface FileFormat<T> {

  /** Name and columns of the file. */
  Columns columns();

  /** Files with a lower number are taken before, as others name their things. */
  int order();

  /** Whether only the office may hand it in; else whoever may enter readings. */
  boolean officeOnly();

  /** How many rows are taken in one transaction. */
  default int batchSize() {
    return 200;
  }

  /**
   * Whether rows may be read while those before them are being written: nothing that the file
   * brings is looked up by its own later rows.
   */
  default boolean isReadAhead() {
    return false;
  }

  /**
   * Reads and checks a row without changing anything.
   *
   * @throws RuntimeException with words on how to mend the row, when it cannot be taken
   */
  T read(Row row, Taking taking);

  /**
   * Takes rows within the transaction under way.
   *
   * @return what became of each, in order
   * @throws RuntimeException when one of them spoils all; then none is taken
   */
  List<RowFate> take(List<T> rows, Taking taking);
}
