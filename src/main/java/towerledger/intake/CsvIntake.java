package towerledger.intake;

import java.io.IOException;
import towerledger.intake.csv.CsvRecord;
import towerledger.intake.csv.CsvRecords;
import towerledger.intake.csv.Header;
import towerledger.intake.csv.Row;
import towerledger.intake.file.FileFormat;
import towerledger.intake.file.Taking;

/** Reads a file of the interchange format, record by record, and hands each over. */
final class CsvIntake {

  private CsvIntake() {}

  static <T> FileReceipt run(
      CsvRecords records, Header header, FileFormat<T> format, Taking taking, FileIntake<T> intake)
      throws IOException {
    for (CsvRecord record = records.next(); record != null; record = records.next()) {
      if (record.problem() != null) {
        intake.refuse(record.line(), record.raw(), record.problem());
      } else if (record.isBlank()) {
        intake.blank();
      } else {
        T value;
        try {
          value = format.read(new Row(header, record.cells()), taking);
        } catch (RuntimeException e) {
          refuse(record, e, records, intake);
          continue;
        }
        intake.offer(record.line(), record.raw(), value);
      }
    }
    return intake.finish();
  }

  /** A record of many lines that does not fit was joined by a stray quote: spare its neighbours. */
  private static void refuse(
      CsvRecord record, RuntimeException e, CsvRecords records, FileIntake<?> intake) {
    if (RowFailure.isOutage(e)) {
      throw e;
    }
    if (record.spansLines()) {
      CsvRecord alone = records.onlyFirstLine(record);
      intake.refuse(alone.line(), alone.raw(), RowFailure.wordsOf(e) + "; " + alone.problem());
    } else {
      intake.refuse(record.line(), record.raw(), RowFailure.wordsOf(e));
    }
  }
}
