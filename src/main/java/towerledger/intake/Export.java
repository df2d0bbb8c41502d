package towerledger.intake;

import java.io.BufferedWriter;
import java.io.IOException;
import java.io.OutputStream;
import java.io.OutputStreamWriter;
import java.io.UncheckedIOException;
import java.io.Writer;
import java.math.BigDecimal;
import java.nio.charset.StandardCharsets;
import java.sql.ResultSet;
import java.sql.SQLException;
import java.time.Instant;
import java.time.LocalTime;
import java.time.OffsetDateTime;
import java.time.ZoneId;
import java.time.ZonedDateTime;
import java.util.Base64;
import java.util.List;
import java.util.zip.ZipEntry;
import java.util.zip.ZipOutputStream;
import javax.sql.DataSource;
import org.apache.commons.csv.CSVFormat;
import org.apache.commons.csv.CSVPrinter;
import org.jspecify.annotations.Nullable;
import org.springframework.jdbc.core.JdbcTemplate;
import org.springframework.stereotype.Service;
import org.springframework.transaction.PlatformTransactionManager;
import org.springframework.transaction.TransactionDefinition;
import org.springframework.transaction.support.TransactionTemplate;
import towerledger.intake.ExportFile.Cell;
import towerledger.intake.ExportFile.Form;
import towerledger.wording.SpreadsheetGuard;

/**
 * Writes the whole ledger as a bundle: all facts and settings as of one moment, in SI to the last
 * digit, so that importing it elsewhere gives the same ledger; and the revisions, for audit. Rows
 * go out as they come from the database, so memory does not grow with the ledger.
 */
@Service
public class Export {

  private static final int ROWS_A_FETCH = 2_000;
  private static final CSVFormat CSV = CSVFormat.RFC4180.builder().setRecordSeparator("\r\n").get();

  private final JdbcTemplate jdbc;
  private final TransactionTemplate snapshot;

  Export(DataSource dataSource, PlatformTransactionManager transactions) {
    this.jdbc = new JdbcTemplate(dataSource);
    this.jdbc.setFetchSize(ROWS_A_FETCH);
    this.snapshot = new TransactionTemplate(transactions);
    this.snapshot.setReadOnly(true);
    this.snapshot.setIsolationLevel(TransactionDefinition.ISOLATION_REPEATABLE_READ);
  }

  /**
   * Writes the bundle as a ZIP; the stream stays open.
   *
   * @throws UncheckedIOException when the stream breaks
   */
  public void write(OutputStream out) {
    snapshot.executeWithoutResult(
        status -> {
          try {
            var zip = new ZipOutputStream(out, StandardCharsets.UTF_8);
            for (ExportFile file : ExportFiles.ALL) {
              zip.putNextEntry(new ZipEntry(file.name() + ".csv"));
              write(file, zip);
              zip.closeEntry();
            }
            zip.finish();
          } catch (IOException e) {
            throw new UncheckedIOException(e);
          }
        });
  }

  private void write(ExportFile file, OutputStream out) throws IOException {
    Writer text = new BufferedWriter(new OutputStreamWriter(out, StandardCharsets.UTF_8));
    // not closed: that would close the ZIP
    var printer = new CSVPrinter(text, CSV);
    List<Cell> columns = columns(file);
    printer.printRecord(columns.stream().map(Cell::name));
    jdbc.query(
        file.sql(),
        row -> {
          try {
            for (int i = 0; i < columns.size(); i++) {
              printer.print(cell(row, i + 1, columns.get(i).form()));
            }
            printer.println();
          } catch (IOException e) {
            throw new UncheckedIOException(e);
          }
        });
    printer.flush();
  }

  private List<Cell> columns(ExportFile file) {
    return file.lastNeeded() == null || !jdbc.queryForList(file.lastNeeded()).isEmpty()
        ? file.columns()
        : file.columnsButLast();
  }

  static @Nullable String cell(ResultSet row, int index, Form form) throws SQLException {
    return switch (form) {
      case INSTANT -> {
        OffsetDateTime at = row.getObject(index, OffsetDateTime.class);
        yield at == null ? null : at.toInstant().toString();
      }
      case DAY_OR_INSTANT ->
          dayOrInstant(
              row.getObject(index, OffsetDateTime.class).toInstant(),
              ZoneId.of(row.getString("time_zone")),
              row.getDouble("give_or_take_hours"));
      case WORDS -> {
        String words = row.getString(index);
        yield words == null ? null : SpreadsheetGuard.apply(words);
      }
      case PLAIN -> plain(row.getObject(index));
    };
  }

  /** A bare date stands for noon of that day, give or take half a day. */
  private static String dayOrInstant(Instant instant, ZoneId zone, double giveOrTakeHours) {
    ZonedDateTime local = instant.atZone(zone);
    return giveOrTakeHours == 12 && local.toLocalTime().equals(LocalTime.NOON)
        ? local.toLocalDate().toString()
        : instant.toString();
  }

  private static @Nullable String plain(@Nullable Object value) {
    if (value == null) {
      return null;
    }
    if (value instanceof byte[] bytes) {
      return Base64.getEncoder().encodeToString(bytes);
    }
    if (value instanceof BigDecimal decimal) {
      return decimal.signum() == 0 ? "0" : decimal.stripTrailingZeros().toPlainString();
    }
    return value instanceof java.sql.Time time ? time.toLocalTime().toString() : value.toString();
  }
}
