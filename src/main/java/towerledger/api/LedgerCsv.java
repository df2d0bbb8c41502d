package towerledger.api;

import java.io.IOException;
import java.io.UncheckedIOException;
import java.math.BigDecimal;
import org.apache.commons.csv.CSVFormat;
import org.apache.commons.csv.CSVPrinter;
import towerledger.ledger.LedgerEntry;

/** Writes ledger rows as the interchange contract has them: one row a system and month, gallons. */
final class LedgerCsv {

  private final CSVPrinter printer;

  LedgerCsv(Appendable out) throws IOException {
    printer = new CSVPrinter(out, CSVFormat.RFC4180);
    printer.printRecord(LedgerColumns.NAMES);
  }

  void write(LedgerEntry entry) {
    try {
      printer.printRecord(
          LedgerColumns.values(entry).stream()
              .map(value -> value instanceof BigDecimal number ? number.toPlainString() : value)
              .toList());
    } catch (IOException e) {
      throw new UncheckedIOException(e);
    }
  }
}
