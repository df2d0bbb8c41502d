package towerledger.intake;

import java.io.IOException;
import java.util.List;
import java.util.Optional;
import org.springframework.transaction.support.TransactionTemplate;
import towerledger.intake.csv.CsvRecord;
import towerledger.intake.csv.CsvRecords;
import towerledger.intake.csv.Header;
import towerledger.intake.csv.Row;
import towerledger.intake.file.FileFormat;
import towerledger.intake.file.RowFate;
import towerledger.intake.file.Taking;

/** One row of a file, tried by itself. */
final class SingleRow<T> {

  private final FileFormat<T> format;
  private final Taking taking;
  private final TransactionTemplate transactions;

  SingleRow(FileFormat<T> format, Taking taking, TransactionTemplate transactions) {
    this.format = format;
    this.taking = taking;
    this.transactions = transactions;
  }

  /** Why the row was not taken; empty when it was. */
  Optional<String> take(CsvRecords records) throws IOException {
    CsvRecord header = records.next();
    CsvRecord record = records.next();
    if (header == null || record == null) {
      return Optional.of("the row is empty");
    }
    if (record.problem() != null) {
      return Optional.of(record.problem());
    }
    try {
      Header names = Header.of(format.columns(), header.cells());
      T value = format.read(new Row(names, record.cells()), taking);
      List<RowFate> fates = transactions.execute(status -> format.take(List.of(value), taking));
      if (fates == null || fates.size() != 1) {
        throw new IllegalStateException("the row was lost on the way");
      }
      RowFate fate = fates.get(0);
      return fate.fate() == null ? Optional.of(fate.reason()) : Optional.empty();
    } catch (RuntimeException e) {
      if (RowFailure.isOutage(e)) {
        throw e;
      }
      return Optional.of(RowFailure.wordsOf(e));
    }
  }
}
