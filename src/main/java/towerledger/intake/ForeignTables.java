package towerledger.intake;

import java.io.BufferedOutputStream;
import java.io.IOException;
import java.io.InputStream;
import java.io.OutputStream;
import java.nio.file.Files;
import java.nio.file.Path;
import java.util.ArrayList;
import java.util.List;
import java.util.Optional;
import org.jspecify.annotations.Nullable;
import org.springframework.stereotype.Service;
import towerledger.intake.UploadRefused.Kind;
import towerledger.intake.csv.Columns;
import towerledger.intake.foreign.ForeignMapping;
import towerledger.intake.foreign.ForeignTable;

/**
 * Tables of others, with columns of their own: looked at, mapped onto a file of the interchange
 * format, and taken. The mapping is remembered for the sender and the table's columns.
 */
@Service
public class ForeignTables {

  private static final int PREVIEWED = 10;

  private final Importer importer;
  private final MappingStore mappings;

  ForeignTables(Importer importer, MappingStore mappings) {
    this.importer = importer;
    this.mappings = mappings;
  }

  /**
   * A row of the preview.
   *
   * @param given its cells as they came
   * @param becomes its cells under the interchange columns
   * @param problem why it would wait in quarantine; empty when it would be taken
   */
  public record PreviewRow(List<String> given, List<String> becomes, String problem) {}

  /**
   * What a table would become.
   *
   * @param header its columns
   * @param mapping the mapping given, remembered or suggested
   * @param remembered whether it was remembered from the same sender
   * @param columns the interchange columns that the rows fill
   * @param rows its first rows
   * @param questions what has to be settled before it is taken
   */
  public record Preview(
      List<String> header,
      ForeignMapping mapping,
      boolean remembered,
      List<String> columns,
      List<PreviewRow> rows,
      List<String> questions) {}

  /**
   * Shows what a table would become; takes nothing.
   *
   * @param file the interchange file wanted; needed unless a mapping is given or remembered
   * @param sender who sends such tables; null when it does not matter
   * @param given a mapping to try; one without columns tells delimiter and header row only and has
   *     its columns suggested; null for the remembered or a suggested one
   * @throws UploadRefused when the table cannot be read or the mapping does not fit
   */
  public Preview preview(
      Path table,
      @Nullable String file,
      @Nullable String sender,
      @Nullable ForeignMapping given,
      ImportRequest request) {
    return refusing(
        () -> {
          ForeignTable read = ForeignTable.read(table, given);
          Optional<ForeignMapping> known =
              given == null ? mappings.find(sender, read.header(), request) : Optional.empty();
          List<String> questions = new ArrayList<>();
          ForeignMapping mapping =
              known.orElseGet(
                  () ->
                      given == null || given.columns().isEmpty()
                          ? suggested(read, file, questions, request)
                          : given);
          var converter = read.converter(mapping, importer.columns(mapping.file()));
          List<List<String>> rows = read.firstRows(PREVIEWED);
          List<List<String>> converted = rows.stream().map(converter::convert).toList();
          List<String> problems =
              importer.tryRows(mapping.file(), converter.header(), converted, request);
          List<PreviewRow> shown = new ArrayList<>();
          for (int i = 0; i < rows.size(); i++) {
            shown.add(new PreviewRow(rows.get(i), converted.get(i), problems.get(i)));
          }
          return new Preview(
              read.header(), mapping, known.isPresent(), converter.header(), shown, questions);
        });
  }

  private ForeignMapping suggested(
      ForeignTable read, @Nullable String file, List<String> questions, ImportRequest request) {
    if (file == null || file.isBlank()) {
      throw new UploadRefused(
          Kind.WRONG_CONTENT,
          "say which file the table is to become, for instance register_readings");
    }
    importer.requireAllowed(file, request);
    return read.suggest(importer.columns(file), questions);
  }

  /** Columns that an interchange file has. */
  public Columns columns(String file) {
    return importer.columns(file);
  }

  /**
   * Takes a table by a mapping given or remembered, and remembers it for the sender.
   *
   * @param table the table's name, for the receipt
   * @throws UploadRefused when nothing was taken, with words on why
   */
  public ImportReceipt take(
      Path table, @Nullable String sender, @Nullable ForeignMapping given, ImportRequest request) {
    return refusing(
        () -> {
          ForeignTable read = ForeignTable.read(table, given);
          ForeignMapping mapping =
              Optional.ofNullable(given)
                  .or(() -> mappings.find(sender, read.header(), request))
                  .orElseThrow(
                      () ->
                          new UploadRefused(
                              Kind.WRONG_CONTENT,
                              "no mapping is given, and none is remembered for this sender and these columns (%s); look at the preview first"
                                  .formatted(String.join(", ", read.header()))));
          var converter = read.converter(mapping, importer.columns(mapping.file()));
          Path converted =
              Files.createTempFile(table.toAbsolutePath().getParent(), "mapped", ".csv");
          try {
            try (OutputStream out = new BufferedOutputStream(Files.newOutputStream(converted))) {
              read.convert(converter, out);
            }
            try (Upload upload = Upload.empty()) {
              upload.add(mapping.file() + ".csv", converted);
              ImportReceipt receipt = importer.take(upload, request);
              if (sender != null && !sender.isBlank()) {
                mappings.remember(sender, read.header(), mapping, request);
              }
              return receipt;
            }
          } finally {
            Files.deleteIfExists(converted);
          }
        });
  }

  @FunctionalInterface
  private interface Work<T> {
    T done() throws IOException;
  }

  private static <T> T refusing(Work<T> work) {
    try {
      return work.done();
    } catch (IllegalArgumentException e) {
      throw new UploadRefused(Kind.WRONG_CONTENT, String.valueOf(e.getMessage()));
    } catch (IOException e) {
      throw new UploadRefused(
          Kind.UNREADABLE, "the table cannot be read: %s".formatted(e.getMessage()));
    }
  }

  /** The table's bytes laid down in a folder. */
  public static Path layDown(InputStream in, Path folder) throws IOException {
    Path place = folder.resolve("table");
    Files.copy(in, place);
    return place;
  }
}
