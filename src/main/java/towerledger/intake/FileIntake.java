package towerledger.intake;

import java.util.ArrayList;
import java.util.List;
import java.util.Map;
import java.util.Objects;
import java.util.concurrent.CompletableFuture;
import java.util.concurrent.ExecutionException;
import java.util.concurrent.ExecutorService;
import java.util.concurrent.Executors;
import java.util.concurrent.Future;
import java.util.concurrent.TimeUnit;
import java.util.function.Consumer;
import java.util.stream.Collectors;
import org.jspecify.annotations.Nullable;
import org.springframework.transaction.support.TransactionTemplate;
import towerledger.bulk.BatchResult.Fate;
import towerledger.intake.file.FileFormat;
import towerledger.intake.file.RowFate;
import towerledger.intake.file.Taking;
import towerledger.site.UnknownCodeException;

/**
 * Takes one file, batch by batch, each in a transaction of its own: whenever the process dies, the
 * batches before are taken whole and the rest not at all, and the same file again makes it
 * complete. A batch that holds a bad row is halved until the bad row stands alone.
 *
 * <p>Where the format allows it a batch is written by a thread of its own while the next is read:
 * never more than one, so that batches go in in their order and memory holds two of them.
 *
 * @param <T> a row of the file, read and checked
 */
final class FileIntake<T> implements AutoCloseable {

  private static final int BATCH_CHARACTERS = 4_000_000;
  private static final int WAITING_REMEMBERED = 50_000;
  private static final int MOST_EARLY = 10_000;

  private final FileFormat<T> format;
  private final Taking taking;
  private final TransactionTemplate transactions;
  private final QuarantineStore quarantine;
  private final QuarantineStore.Shelf shelf;
  private final RowHash hashes;
  private final Consumer<FileReceipt> progress;
  private final FileTally tally;
  private final boolean fileIsKnown;
  private final Map<String, Long> waiting;
  private final List<Ready<T>> early = new ArrayList<>();
  private final @Nullable ExecutorService writer;
  private Future<?> writing = CompletableFuture.completedFuture(null);
  private List<Ready<T>> read = new ArrayList<>();
  private List<Quarantined> unread = new ArrayList<>();

  private boolean mayComeLater = true;
  private long characters;

  /** A row read and checked, with its place in the file and its text. */
  private record Ready<T>(long line, String raw, T value) {}

  /**
   * A file about to be taken.
   *
   * @param shelf under which its bad rows are kept
   * @param shownName its name in the receipt
   */
  FileIntake(
      FileFormat<T> format,
      Taking taking,
      TransactionTemplate transactions,
      QuarantineStore quarantine,
      QuarantineStore.Shelf shelf,
      String shownName,
      Consumer<FileReceipt> progress) {
    this.format = format;
    this.taking = taking;
    this.transactions = transactions;
    this.quarantine = quarantine;
    this.shelf = shelf;
    this.progress = progress;
    this.tally = new FileTally(shownName);
    this.hashes = new RowHash(shelf.file(), shelf.header());
    this.fileIsKnown = quarantine.knows(shelf.file());
    this.writer =
        format.isReadAhead()
            ? Executors.newSingleThreadExecutor(
                work -> {
                  var thread = new Thread(work, "intake " + shelf.file());
                  thread.setDaemon(true);
                  return thread;
                })
            : null;
    this.waiting = fileIsKnown ? quarantine.waiting(shelf.file(), WAITING_REMEMBERED) : Map.of();
  }

  /** A row that was read and can be taken. */
  void offer(long line, String raw, T value) {
    read.add(new Ready<>(line, raw, value));
    came(raw);
  }

  /** A row that cannot be taken. */
  void refuse(long line, String raw, String reason) {
    unread.add(new Quarantined(line, raw, reason));
    came(raw);
  }

  /** A row that tells nothing. */
  void blank() {
    tally.countBlank();
  }

  /** Something that whoever handed the file in should know. */
  void note(String words) {
    tally.note(words);
  }

  /** Takes what is left and tells what became of all rows. */
  FileReceipt finish() {
    flush();
    awaitWritten();
    int before = Integer.MAX_VALUE;
    while (!early.isEmpty()) {
      // rows that name a thing which a later row brought: the order of rows is free
      mayComeLater = early.size() < before;
      before = early.size();
      read.addAll(early);
      early.clear();
      flush();
      awaitWritten();
    }
    return tally.receipt();
  }

  /** Waits for what is being written, whatever became of the reading. */
  @Override
  public void close() {
    if (writer != null) {
      writer.shutdown();
      boolean interrupted = false;
      boolean ended = false;
      while (!ended) {
        try {
          ended = writer.awaitTermination(1, TimeUnit.HOURS);
        } catch (InterruptedException e) {
          interrupted = true;
        }
      }
      if (interrupted) {
        Thread.currentThread().interrupt();
      }
    }
  }

  private void came(String raw) {
    characters += raw.length();
    if (read.size() >= format.batchSize()
        || unread.size() >= format.batchSize()
        || characters >= BATCH_CHARACTERS) {
      flush();
    }
  }

  private void flush() {
    awaitWritten();
    List<Ready<T>> rows = read;
    List<Quarantined> refused = unread;
    read = new ArrayList<>(rows.size());
    unread = new ArrayList<>();
    characters = 0;
    if (writer == null) {
      write(rows, refused);
    } else {
      writing = writer.submit(() -> write(rows, refused));
    }
  }

  private void awaitWritten() {
    try {
      writing.get();
    } catch (ExecutionException e) {
      if (e.getCause() instanceof RuntimeException told) {
        throw told;
      }
      throw new IllegalStateException("a batch could not be written", e.getCause());
    } catch (InterruptedException e) {
      Thread.currentThread().interrupt();
      throw new IllegalStateException("broken off while a batch was written", e);
    }
  }

  private void write(List<Ready<T>> batch, List<Quarantined> bad) {
    takeAll(batch, bad);
    settleWaiting(batch, bad);
    holdBad(bad);
    progress.accept(tally.receipt());
  }

  private static <T> Quarantined held(Ready<T> row, String reason) {
    return new Quarantined(row.line, row.raw, reason);
  }

  private void takeAll(List<Ready<T>> rows, List<Quarantined> bad) {
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
          bad.add(held(rows.get(0), RowFailure.wordsOf(e)));
        }
        return;
      }
      int half = rows.size() / 2;
      takeAll(rows.subList(0, half), bad);
      takeAll(rows.subList(half, rows.size()), bad);
      return;
    }
    for (int i = 0; i < fates.size(); i++) {
      Fate fate = fates.get(i).fate();
      if (fate == null) {
        bad.add(held(rows.get(i), fates.get(i).reason()));
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
  private void settleWaiting(List<Ready<T>> batch, List<Quarantined> bad) {
    if (waiting.isEmpty()) {
      return;
    }
    var notTaken = bad.stream().map(Quarantined::line).collect(Collectors.toSet());
    early.forEach(row -> notTaken.add(row.line));
    var settled =
        batch.stream()
            .filter(row -> !notTaken.contains(row.line))
            .map(row -> waiting.get(hashes.of(row.raw)))
            .filter(Objects::nonNull)
            .toList();
    if (!settled.isEmpty()) {
      quarantine.settle(settled, taking.actor().name());
    }
  }

  private void holdBad(List<Quarantined> bad) {
    if (bad.isEmpty()) {
      return;
    }
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
