package towerledger.intake;

import java.io.ByteArrayInputStream;
import java.io.IOException;
import java.io.UncheckedIOException;
import java.nio.charset.StandardCharsets;
import java.time.Clock;
import java.util.ArrayList;
import java.util.List;
import java.util.Optional;
import java.util.UUID;
import java.util.function.Supplier;
import org.slf4j.Logger;
import org.slf4j.LoggerFactory;
import org.springframework.stereotype.Service;
import org.springframework.transaction.support.TransactionTemplate;
import towerledger.account.EmptyValues;
import towerledger.bulk.BulkLoader;
import towerledger.intake.UploadRefused.Kind;
import towerledger.intake.csv.Columns;
import towerledger.intake.csv.CsvRecord;
import towerledger.intake.csv.CsvRecords;
import towerledger.intake.csv.Header;
import towerledger.intake.csv.HeaderProblem;
import towerledger.intake.csv.Row;
import towerledger.intake.file.Directory;
import towerledger.intake.file.FileFormat;
import towerledger.intake.file.Taking;
import towerledger.intake.open.OpenFormat;
import towerledger.job.Jobs;
import towerledger.site.Dependents;
import towerledger.site.SiteAccess;
import towerledger.site.Sites;

/**
 * Takes uploads in: has all of an upload looked through first ({@link KnownFiles}), so that a wrong
 * file or column refuses it whole; then takes its files in the order in which they depend on each
 * other, keeping good rows and putting the others in quarantine.
 */
@Service
public class Importer {

  private static final Logger LOG = LoggerFactory.getLogger(Importer.class);
  private static final String RECONCILIATION = "reconciliation";

  private final KnownFiles known;
  private final ImportTurn turn;
  private final ImportRecords records;
  private final QuarantineStore quarantine;
  private final TransactionTemplate transactions;
  private final BulkLoader loader;
  private final Sites sites;
  private final SiteAccess access;
  private final Dependents dependents;
  private final Jobs jobs;
  private final Clock clock;

  Importer(
      KnownFiles known,
      ImportTurn turn,
      ImportRecords records,
      QuarantineStore quarantine,
      TransactionTemplate transactions,
      BulkLoader loader,
      Sites sites,
      SiteAccess access,
      Dependents dependents,
      Jobs jobs,
      Clock clock) {
    this.known = known;
    this.turn = turn;
    this.records = records;
    this.quarantine = quarantine;
    this.transactions = transactions;
    this.loader = loader;
    this.sites = sites;
    this.access = access;
    this.dependents = dependents;
    this.jobs = jobs;
    this.clock = clock;
  }

  /**
   * Takes an upload.
   *
   * @return what became of every row
   * @throws UploadRefused when nothing was taken, with words on why
   */
  public ImportReceipt take(Upload upload, ImportRequest request) {
    var skipped = new ArrayList<FileReceipt>();
    List<CheckedFile> files = known.check(upload, request.viewer(), skipped);
    return turn.inTurn(request.isStartUp(), () -> takeChecked(files, skipped, request));
  }

  /**
   * Tries one row again.
   *
   * @param file its file without {@code .csv}
   * @param text header and row
   */
  Quarantine.Retry retry(String file, String text, ImportRequest request) {
    return takeOne(file, () -> text, EmptyValues.KEEP, request);
  }

  /**
   * Tries rows again, each by itself.
   *
   * @param file their file without {@code .csv}
   * @param texts header and row of each
   */
  List<Quarantine.Retry> retryEach(String file, List<String> texts, ImportRequest request) {
    FileFormat<?> format = known.get(file);
    return takeEach(format, () -> texts, EmptyValues.KEEP, request);
  }

  /**
   * Takes one row by itself.
   *
   * @param file its file without {@code .csv}
   * @param text header and row, asked for when it is their turn
   * @param empty what an empty cell says of a thing that is there
   */
  Quarantine.Retry takeOne(
      String file, Supplier<String> text, EmptyValues empty, ImportRequest request) {
    FileFormat<?> format = known.find(file).orElse(null);
    if (format == null) {
      return new Quarantine.Retry(false, "files named '%s' are not known".formatted(file));
    }
    return takeEach(format, () -> List.of(text.get()), empty, request).get(0);
  }

  /** Takes rows, each by itself, and has the ledger reckoned once if any was taken. */
  private List<Quarantine.Retry> takeEach(
      FileFormat<?> format,
      Supplier<List<String>> texts,
      EmptyValues empty,
      ImportRequest request) {
    KnownFiles.requireAllowed(format, request.viewer());
    return turn.inTurn(
        false,
        () -> {
          var fates =
              texts.get().stream()
                  .map(text -> takeOneChecked(format, text, empty, request))
                  .map(reason -> new Quarantine.Retry(reason.isEmpty(), reason.orElse("")))
                  .toList();
          if (fates.stream().anyMatch(Quarantine.Retry::taken)) {
            jobs.submit(RECONCILIATION, null, null, request.actor().name());
          }
          return fates;
        });
  }

  private <T> Optional<String> takeOneChecked(
      FileFormat<T> format, String text, EmptyValues empty, ImportRequest request) {
    Taking taking = taking(request, directory(request), false, empty);
    try (var rows =
        new CsvRecords(new ByteArrayInputStream(text.getBytes(StandardCharsets.UTF_8)), ',')) {
      return new SingleRow<>(format, taking, transactions).take(rows);
    } catch (IOException e) {
      throw new UncheckedIOException(e);
    }
  }

  /**
   * Columns of a file of the interchange format.
   *
   * @throws UploadRefused when there is no such file
   */
  Columns columns(String file) {
    return known.get(file).columns();
  }

  /**
   * Checks that a sender may hand in such a file.
   *
   * @throws UploadRefused when not, or when there is no such file
   */
  void requireAllowed(String file, ImportRequest request) {
    KnownFiles.requireAllowed(known.get(file), request.viewer());
  }

  /** Why each of some rows would wait in quarantine; empty for those that can be read. */
  List<String> tryRows(
      String file, List<String> header, List<List<String>> rows, ImportRequest request) {
    FileFormat<?> format = known.get(file);
    KnownFiles.requireAllowed(format, request.viewer());
    Taking taking = taking(request, directory(request), false, EmptyValues.KEEP);
    Header names;
    try {
      names = Header.of(format.columns(), header);
    } catch (HeaderProblem e) {
      return rows.stream().map(row -> String.valueOf(e.getMessage())).toList();
    }
    return rows.stream()
        .map(
            row -> {
              try {
                format.read(new Row(names, row), taking);
                return "";
              } catch (RuntimeException e) {
                if (RowFailure.isOutage(e)) {
                  throw e;
                }
                return RowFailure.wordsOf(e);
              }
            })
        .toList();
  }

  private Directory directory(ImportRequest request) {
    return new Directory(sites, access, dependents, request.viewer());
  }

  private Taking taking(
      ImportRequest request, Directory directory, boolean repeated, EmptyValues empty) {
    return new Taking(request.actor(), directory, clock.instant(), repeated, empty, loader);
  }

  private ImportReceipt takeChecked(
      List<CheckedFile> files, List<FileReceipt> skipped, ImportRequest request) {
    records.failAbandoned();
    String id = UUID.randomUUID().toString();
    records.begin(id, request);
    LOG.info("import {} from {} begins: {} files", id, request.origin(), files.size());
    Directory directory = directory(request);
    var receipts = new ArrayList<FileReceipt>();
    try {
      for (CheckedFile file : files) {
        boolean repeated = records.remember(id, file.shownName(), file.contentHash());
        Taking taking = taking(request, directory, repeated, EmptyValues.KEEP);
        receipts.add(takeFile(file, taking, id, receipts));
      }
    } catch (RuntimeException e) {
      records.failed(id, receipts, String.valueOf(e.getMessage()));
      throw e;
    }
    receipts.addAll(skipped);
    var receipt = new ImportReceipt(id, receipts, reconcile(receipts, request));
    records.done(receipt);
    LOG.info("import {} is done", id);
    return receipt;
  }

  private FileReceipt takeFile(
      CheckedFile file, Taking taking, String importId, List<FileReceipt> before) {
    try {
      return takeFile(file.format(), file, taking, importId, before);
    } catch (IOException e) {
      throw new UploadRefused(
          Kind.UNREADABLE,
          "file '%s' broke off while it was read: %s; send it again, what was taken of it stays"
              .formatted(Upload.shown(file.entry().name()), e.getMessage()));
    }
  }

  private <T> FileReceipt takeFile(
      FileFormat<T> format,
      CheckedFile file,
      Taking taking,
      String importId,
      List<FileReceipt> before)
      throws IOException {
    OpenFormat open = file.open();
    if (open != null) {
      return takeOpen(open, format, file.entry(), taking, importId, before);
    }
    try (var rows = file.records()) {
      CsvRecord first = rows.next();
      if (first == null) {
        throw new IOException("the file is empty");
      }
      Header header = Header.of(format.columns(), first.cells());
      String name = format.columns().file();
      var shelf = new QuarantineStore.Shelf(importId, name, header.text(), taking.customerId());
      try (var intake =
          new FileIntake<>(
              format,
              taking,
              transactions,
              quarantine,
              shelf,
              name + ".csv",
              so -> tellProgress(importId, before, so))) {
        return CsvIntake.run(rows, header, format, taking, intake);
      }
    }
  }

  private <T> FileReceipt takeOpen(
      OpenFormat open,
      FileFormat<T> format,
      Upload.Entry entry,
      Taking taking,
      String importId,
      List<FileReceipt> before)
      throws IOException {
    Header header = Header.of(format.columns(), open.columns());
    var shelf =
        new QuarantineStore.Shelf(
            importId, format.columns().file(), header.text(), taking.customerId());
    try (var intake =
        new FileIntake<>(
            format,
            taking,
            transactions,
            quarantine,
            shelf,
            Upload.shown(entry.name()),
            so -> tellProgress(importId, before, so))) {
      OpenIntake.prepare(open, entry, transactions);
      return OpenIntake.run(open, entry, header, format, taking, intake);
    }
  }

  private void tellProgress(String importId, List<FileReceipt> before, FileReceipt now) {
    var all = new ArrayList<>(before);
    all.add(now);
    records.progress(importId, all);
  }

  private ImportReceipt.Reconciliation reconcile(
      List<FileReceipt> receipts, ImportRequest request) {
    if (receipts.stream().noneMatch(FileReceipt::isNews)) {
      return new ImportReceipt.Reconciliation(
          jobs.recordDone(
              RECONCILIATION, "the import changed nothing", null, request.actor().name()),
          "done");
    }
    return new ImportReceipt.Reconciliation(
        jobs.submit(RECONCILIATION, null, null, request.actor().name()), "queued");
  }
}
