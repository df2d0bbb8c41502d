package towerledger.intake;

import java.io.IOException;
import java.util.ArrayList;
import java.util.List;
import java.util.Map;
import java.util.Objects;
import java.util.function.Consumer;
import java.util.stream.Collectors;
import org.springframework.transaction.support.TransactionTemplate;
import towerledger.bulk.BatchResult.Fate;
import towerledger.intake.csv.CsvRecord;
import towerledger.intake.csv.CsvRecords;
import towerledger.intake.csv.Header;
import towerledger.intake.csv.Row;
import towerledger.intake.file.FileFormat;
import towerledger.intake.file.RowFate;
import towerledger.intake.file.Taking;
import towerledger.site.UnknownCodeException;

/**
 * Takes one file, batch by batch, each in a transaction of its own: whenever the process dies, the
 * batches before are taken whole and the rest not at all, and the same file again makes it
 * complete. A batch that holds a bad row is halved until the bad row stands alone.
 *
 * @param <T> a row of the file, read and checked
 */
final class FileIntake<T> {

  private static final int BATCH_CHARACTERS = 4_000_000;
  private static final int WAITING_REMEMBERED = 50_000;
  private static final int MOST_EARLY = 10_000;

  private final FileFormat<T> format;
  private final Taking taking;
  private final TransactionTemplate transactions;
  private final QuarantineStore quarantine;
  private final String importId;
  private final Consumer<FileReceipt> progress;
  private final FileTally tally;
  private final boolean fileIsKnown;
  private final Map<String, Long> waiting;
  private final List<Ready<T>> batch = new ArrayList<>();
  private final List<Quarantined> bad = new ArrayList<>();
  private final List<Ready<T>> early = new ArrayList<>();
  private boolean mayComeLater = true;
  private long characters;

  /** A row read and checked, with its record. */
  private record Ready<T>(CsvRecord record, T value) {}

  FileIntake(
      FileFormat<T> format,
      Taking taking,
      TransactionTemplate transactions,
      QuarantineStore quarantine,
      String importId,
      Consumer<FileReceipt> progress) {
    this.format = format;
    this.taking = taking;
    this.transactions = transactions;
    this.quarantine = quarantine;
    this.importId = importId;
    this.progress = progress;
    String file = format.columns().file();
    this.tally = new FileTally(file + ".csv");
    this.fileIsKnown = quarantine.knows(file);
    this.waiting = fileIsKnown ? quarantine.waiting(file, WAITING_REMEMBERED) : Map.of();
  }

  FileReceipt run(CsvRecords records) throws IOException {
    CsvRecord first = records.next();
    if (first == null) {
      throw new IOException("the file is empty");
    }
    Header header = Header.of(format.columns(), first.cells());
    var hashes = new RowHash(format.columns().file(), header.text());
    for (CsvRecord record = records.next(); record != null; record = records.next()) {
      take(records, record, header);
      if (batch.size() >= format.batchSize()
          || bad.size() >= format.batchSize()
          || characters >= BATCH_CHARACTERS) {
        flush(header, hashes);
      }
    }
    flush(header, hashes);
    takeEarly(header, hashes);
    return tally.receipt();
  }

  /** Rows that name a thing which a later row of the file brought: the order of rows is free. */
  private void takeEarly(Header header, RowHash hashes) {
    int before = Integer.MAX_VALUE;
    while (!early.isEmpty()) {
      mayComeLater = early.size() < before;
      before = early.size();
      batch.addAll(early);
      early.clear();
      flush(header, hashes);
    }
  }

  private void take(CsvRecords records, CsvRecord record, Header header) {
    characters += record.raw().length();
    if (record.problem() != null) {
      hold(record, record.problem());
    } else if (record.isBlank()) {
      tally.countBlank();
    } else {
      try {
        batch.add(new Ready<>(record, format.read(new Row(header, record.cells()), taking)));
      } catch (RuntimeException e) {
        if (record.spansLines()) {
          CsvRecord alone = records.onlyFirstLine(record);
          hold(alone, RowFailure.wordsOf(e) + "; " + alone.problem());
        } else {
          hold(record, RowFailure.wordsOf(e));
        }
      }
    }
  }

  private void hold(CsvRecord record, String reason) {
    bad.add(new Quarantined(record.line(), record.raw(), reason));
  }

  private void flush(Header header, RowHash hashes) {
    takeAll(batch);
    settleWaiting(hashes);
    holdBad(header, hashes);
    batch.clear();
    bad.clear();
    characters = 0;
    progress.accept(tally.receipt());
  }

  private void takeAll(List<Ready<T>> rows) {
    if (rows.isEmpty()) {
      return;
    }
    List<RowFate> fates;
    try {
      fates = fatesOf(rows);
    } catch (RuntimeException e) {
      if (RowFailure.isOutage(e)) {
        throw e;
      }
      if (rows.size() == 1) {
        if (e instanceof UnknownCodeException && mayComeLater && early.size() < MOST_EARLY) {
          early.add(rows.get(0));
        } else {
          hold(rows.get(0).record, RowFailure.wordsOf(e));
        }
        return;
      }
      int half = rows.size() / 2;
      takeAll(rows.subList(0, half));
      takeAll(rows.subList(half, rows.size()));
      return;
    }
    for (int i = 0; i < fates.size(); i++) {
      Fate fate = fates.get(i).fate();
      if (fate == null) {
        hold(rows.get(i).record, fates.get(i).reason());
      } else {
        tally.count(fate);
      }
    }
  }

  private List<RowFate> fatesOf(List<Ready<T>> rows) {
    List<T> values = rows.stream().map(Ready::value).toList();
    List<RowFate> fates = transactions.execute(status -> format.take(values, taking));
    if (fates == null || fates.size() != rows.size()) {
      throw new IllegalStateException("rows of a batch were lost on the way");
    }
    return fates;
  }

  /** Rows that waited in quarantine and are taken now need no more mending. */
  private void settleWaiting(RowHash hashes) {
    if (waiting.isEmpty()) {
      return;
    }
    var notTaken = bad.stream().map(Quarantined::line).collect(Collectors.toSet());
    early.forEach(row -> notTaken.add(row.record.line()));
    var settled =
        batch.stream()
            .filter(row -> !notTaken.contains(row.record.line()))
            .map(row -> waiting.get(hashes.of(row.record.raw())))
            .filter(Objects::nonNull)
            .toList();
    if (!settled.isEmpty()) {
      quarantine.settle(settled, taking.actor().name());
    }
  }

  private void holdBad(Header header, RowHash hashes) {
    if (bad.isEmpty()) {
      return;
    }
    var shelf =
        new QuarantineStore.Shelf(
            importId, format.columns().file(), header.text(), taking.customerId());
    List<Boolean> held = quarantine.hold(shelf, bad, hashes, fileIsKnown);
    for (int i = 0; i < bad.size(); i++) {
      if (held.get(i)) {
        tally.countQuarantined(bad.get(i));
      } else {
        tally.countSettled();
      }
    }
  }
}
