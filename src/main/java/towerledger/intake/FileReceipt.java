package towerledger.intake;

import java.util.List;

/**
 * What became of a file's rows; {@code rows = added + changed + unchanged + quarantined}.
 *
 * @param file its name
 * @param rows rows it holds, the header not counted
 * @param added rows that brought something new
 * @param changed rows that changed or corrected something known
 * @param unchanged rows that told what was known
 * @param quarantined rows that wait to be mended
 * @param reasons why rows wait, the first of them by line, and what else a reader should know
 */
public record FileReceipt(
    String file,
    long rows,
    long added,
    long changed,
    long unchanged,
    long quarantined,
    List<String> reasons) {

  public FileReceipt {
    reasons = List.copyOf(reasons);
    if (rows != added + changed + unchanged + quarantined) {
      throw new IllegalArgumentException(
          "%s: %d rows came in but %d + %d + %d + %d are told of"
              .formatted(file, rows, added, changed, unchanged, quarantined));
    }
  }

  /** Whether it changed anything. */
  boolean isNews() {
    return added > 0 || changed > 0;
  }
}
