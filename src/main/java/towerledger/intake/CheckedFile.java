package towerledger.intake;

import java.io.IOException;
import java.io.InputStream;
import java.security.DigestInputStream;
import java.security.MessageDigest;
import java.util.HexFormat;
import java.util.zip.CRC32;
import java.util.zip.CheckedInputStream;
import org.jspecify.annotations.Nullable;
import towerledger.intake.UploadRefused.Kind;
import towerledger.intake.csv.CsvRecord;
import towerledger.intake.csv.CsvRecords;
import towerledger.intake.csv.Header;
import towerledger.intake.csv.HeaderProblem;
import towerledger.intake.csv.TextBytes;
import towerledger.intake.file.FileFormat;
import towerledger.intake.open.OpenFormat;
import towerledger.intake.open.OpenFormatProblem;

/**
 * A file of an upload, read once to its end before any row of the upload is taken: whole, unpacked
 * to a sane size, and with a header that fits.
 *
 * @param format what it is, or what its rows become
 * @param open the open format it is written in; null for a file of the interchange format
 * @param entry where it lies
 * @param contentHash digest of its content
 */
record CheckedFile(
    FileFormat<?> format, @Nullable OpenFormat open, Upload.Entry entry, String contentHash) {

  /** A bundle unpacks to at most so much. */
  private static final long MOST_BYTES = 64L * 1024 * 1024 * 1024;

  /** Text of readings packs by 5 to 50; far more is not text of readings. */
  private static final int MOST_PACKED = 200;

  private static final long SMALL_BYTES = 64L * 1024 * 1024;

  /**
   * Reads a file to its end.
   *
   * @throws UploadRefused when it is broken, bursts its ZIP or has another header
   */
  static CheckedFile check(FileFormat<?> format, @Nullable OpenFormat open, Upload.Entry entry) {
    String name = Upload.shown(entry.name());
    try {
      String hash = readToEnd(entry, name);
      if (open != null) {
        OpenIntake.check(open, entry);
        return new CheckedFile(format, open, entry, hash);
      }
      try (var records = records(entry)) {
        CsvRecord header = records.next();
        if (header == null) {
          throw new UploadRefused(
              Kind.UNREADABLE,
              "file '%s' is empty; its first row must name the columns".formatted(name));
        }
        if (header.problem() != null) {
          throw new UploadRefused(
              Kind.WRONG_CONTENT, "%s, header row: %s".formatted(name, header.problem()));
        }
        Header.of(format.columns(), header.cells());
      }
      return new CheckedFile(format, null, entry, hash);
    } catch (OpenFormatProblem e) {
      throw new UploadRefused(
          Kind.WRONG_CONTENT, "file '%s' cannot be taken: %s".formatted(name, e.getMessage()));
    } catch (HeaderProblem e) {
      throw new UploadRefused(Kind.WRONG_CONTENT, String.valueOf(e.getMessage()));
    } catch (IOException e) {
      throw new UploadRefused(
          Kind.UNREADABLE, "file '%s' cannot be read: %s".formatted(name, e.getMessage()));
    }
  }

  /** The name under which the import remembers it. */
  String shownName() {
    return open == null ? format.columns().file() : Upload.shown(entry.name());
  }

  CsvRecords records() throws IOException {
    return records(entry);
  }

  private static CsvRecords records(Upload.Entry entry) throws IOException {
    return new CsvRecords(TextBytes.utf8(entry.content().open()), ',');
  }

  private static String readToEnd(Upload.Entry entry, String name) throws IOException {
    MessageDigest digest = RowHash.sha256();
    var checksum = new CRC32();
    long bytes = 0;
    byte[] buffer = new byte[64 * 1024];
    try (InputStream in =
        new DigestInputStream(
            entry.checksum() >= 0
                ? new CheckedInputStream(entry.content().open(), checksum)
                : entry.content().open(),
            digest)) {
      for (int read = in.read(buffer); read >= 0; read = in.read(buffer)) {
        bytes += read;
        if (entry.packedBytes() >= 0) {
          requireSane(entry, name, bytes);
        }
      }
    }
    if (bytes == 0) {
      throw new UploadRefused(
          Kind.UNREADABLE, "file '%s' is empty; nothing was taken".formatted(name));
    }
    if (entry.checksum() >= 0 && entry.checksum() != checksum.getValue()) {
      throw new UploadRefused(
          Kind.UNREADABLE,
          "file '%s' in the ZIP is damaged (its checksum is wrong); pack it again".formatted(name));
    }
    return HexFormat.of().formatHex(digest.digest());
  }

  private static void requireSane(Upload.Entry entry, String name, long bytes) {
    boolean bursts = bytes > SMALL_BYTES && bytes / Math.max(1, entry.packedBytes()) > MOST_PACKED;
    if (bursts || bytes > MOST_BYTES) {
      throw new UploadRefused(
          Kind.TOO_LARGE,
          "file '%s' unpacks to more than %d times its size in the ZIP or more than %d GB; nothing was taken. Send it as CSV"
              .formatted(name, MOST_PACKED, MOST_BYTES >> 30));
    }
  }
}
