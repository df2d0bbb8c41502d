package towerledger.intake;

import java.io.BufferedInputStream;
import java.io.IOException;
import java.io.InputStream;
import java.io.UncheckedIOException;
import java.util.List;
import java.util.Locale;
import java.util.zip.GZIPInputStream;
import org.apache.commons.csv.CSVFormat;
import org.springframework.transaction.support.TransactionTemplate;
import towerledger.intake.csv.Header;
import towerledger.intake.csv.Row;
import towerledger.intake.file.FileFormat;
import towerledger.intake.file.Taking;
import towerledger.intake.open.OpenFormat;

/** Reads a file of an open format and hands its rows over as those of an interchange file. */
final class OpenIntake {

  /** A packed weather file unpacks to a few megabytes. */
  private static final long MOST_UNPACKED = 1L << 30;

  private OpenIntake() {}

  /** The name by which a format is told: without {@code .gz}. */
  static String name(String given) {
    return given.toLowerCase(Locale.ROOT).endsWith(".gz")
        ? given.substring(0, given.length() - ".gz".length())
        : given;
  }

  /** The file, unpacked where it is packed by gzip. */
  static OpenFormat.Source source(Upload.Entry entry) {
    return () -> {
      var in = new BufferedInputStream(entry.content().open());
      in.mark(2);
      byte[] head = in.readNBytes(2);
      in.reset();
      boolean packed = head.length == 2 && (head[0] & 0xFF) == 0x1F && (head[1] & 0xFF) == 0x8B;
      return packed ? new Bounded(new GZIPInputStream(in)) : in;
    };
  }

  /** Reads a file to its end without taking anything, so that a broken one refuses the upload. */
  static void check(OpenFormat open, Upload.Entry entry) throws IOException {
    open.read(
        name(entry.name()),
        source(entry),
        new OpenFormat.Sink() {
          @Override
          public void row(long line, List<String> cells) {
            // Looked at when it is taken.
          }

          @Override
          public void refused(long line, String raw, String reason) {
            // Held when it is taken.
          }

          @Override
          public void gap() {
            // Counted when it is taken.
          }

          @Override
          public void note(String words) {
            // Told when it is taken.
          }
        });
  }

  /** What has to be done before the rows, in a transaction of its own. */
  static void prepare(OpenFormat open, Upload.Entry entry, TransactionTemplate transactions) {
    transactions.executeWithoutResult(
        status -> {
          try {
            open.prepare(name(entry.name()), source(entry));
          } catch (IOException e) {
            throw new UncheckedIOException(e);
          }
        });
  }

  static <T> FileReceipt run(
      OpenFormat open,
      Upload.Entry entry,
      Header header,
      FileFormat<T> format,
      Taking taking,
      FileIntake<T> intake)
      throws IOException {
    open.read(
        name(entry.name()),
        source(entry),
        new OpenFormat.Sink() {
          @Override
          public void row(long line, List<String> cells) {
            String raw = CSVFormat.RFC4180.format(cells.toArray());
            T value;
            try {
              value = format.read(new Row(header, cells), taking);
            } catch (RuntimeException e) {
              if (RowFailure.isOutage(e)) {
                throw e;
              }
              intake.refuse(line, raw, RowFailure.wordsOf(e));
              return;
            }
            intake.offer(line, raw, value);
          }

          @Override
          public void refused(long line, String raw, String reason) {
            intake.refuse(line, raw, reason);
          }

          @Override
          public void gap() {
            intake.blank();
          }

          @Override
          public void note(String words) {
            intake.note(words);
          }
        });
    return intake.finish();
  }

  /** A stream that breaks off rather than unpack without end. */
  private static final class Bounded extends java.io.FilterInputStream {

    private long left = MOST_UNPACKED;

    Bounded(InputStream in) {
      super(in);
    }

    @Override
    public int read() throws IOException {
      int read = super.read();
      count(read < 0 ? 0 : 1);
      return read;
    }

    @Override
    public int read(byte[] target, int offset, int length) throws IOException {
      int read = super.read(target, offset, length);
      count(Math.max(0, read));
      return read;
    }

    private void count(int read) throws IOException {
      left -= read;
      if (left < 0) {
        throw new IOException("it unpacks to more than %d MB".formatted(MOST_UNPACKED >> 20));
      }
    }
  }
}
