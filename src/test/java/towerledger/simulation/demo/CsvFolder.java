package towerledger.simulation.demo;

import java.io.IOException;
import java.io.UncheckedIOException;
import java.io.Writer;
import java.math.BigDecimal;
import java.nio.charset.StandardCharsets;
import java.nio.file.Files;
import java.nio.file.Path;
import java.util.Arrays;
import org.apache.commons.csv.CSVFormat;
import org.apache.commons.csv.CSVPrinter;
import org.jspecify.annotations.Nullable;

/** A folder of CSV files with Unix line ends; empty cells for what is not known. */
final class CsvFolder {

  private final Path folder;

  CsvFolder(Path folder) {
    this.folder = folder;
  }

  /** Rows of one file. */
  interface Rows {
    void add(@Nullable Object... cells);
  }

  /** Writes a file. */
  interface Content {
    void into(Rows rows);
  }

  void write(String file, String header, Content content) {
    CSVFormat format = CSVFormat.RFC4180.builder().setRecordSeparator("\n").get();
    String[] columns = header.split(",");
    try (Writer writer = Files.newBufferedWriter(folder.resolve(file), StandardCharsets.UTF_8);
        CSVPrinter printer = new CSVPrinter(writer, format)) {
      printer.printRecord((Object[]) columns);
      content.into(
          cells -> {
            if (cells.length != columns.length) {
              throw new IllegalArgumentException(
                  "%s has %d columns, a row has %d: %s"
                      .formatted(file, columns.length, cells.length, Arrays.toString(cells)));
            }
            try {
              printer.printRecord(Arrays.stream(cells).map(CsvFolder::text));
            } catch (IOException e) {
              throw new UncheckedIOException(e);
            }
          });
    } catch (IOException e) {
      throw new UncheckedIOException(e);
    }
  }

  private static @Nullable Object text(@Nullable Object cell) {
    if (cell instanceof Double number) {
      return BigDecimal.valueOf(number).stripTrailingZeros().toPlainString();
    }
    if (cell instanceof BigDecimal number) {
      return number.toPlainString();
    }
    return cell;
  }
}
