package towerledger.intake.csv;

import java.io.Closeable;
import java.io.IOException;
import java.io.InputStream;
import java.io.StringReader;
import java.nio.ByteBuffer;
import java.nio.charset.CharacterCodingException;
import java.nio.charset.CharsetDecoder;
import java.nio.charset.CodingErrorAction;
import java.nio.charset.StandardCharsets;
import java.util.ArrayList;
import java.util.Arrays;
import java.util.List;
import org.apache.commons.csv.CSVFormat;
import org.apache.commons.csv.CSVParser;
import org.jspecify.annotations.Nullable;

/**
 * Cuts a stream of UTF-8 text into records (RFC 4180), one at a time, so that memory does not grow
 * with the file.
 *
 * <p>Only the cutting is done here, because a broken record must not take its neighbours with it: a
 * quote that is never closed spoils its own line alone, bytes that are not UTF-8 spoil their own
 * record alone. Cells with quotes are read by Commons CSV.
 */
public final class CsvRecords implements Closeable {

  /** Longest record that is held in memory, in bytes. */
  public static final int LONGEST_RECORD = 8 * 1024 * 1024;

  private static final int MOST_LINES = 1_000;
  private static final int KEPT_OF_TOO_LONG = 64 * 1024;

  private final InputStream in;
  private final byte delimiter;
  private final CSVFormat quotedFormat;
  private final CharsetDecoder utf8 =
      StandardCharsets.UTF_8
          .newDecoder()
          .onMalformedInput(CodingErrorAction.REPORT)
          .onUnmappableCharacter(CodingErrorAction.REPORT);

  private byte[] buffer = new byte[128 * 1024];
  private int start;
  private int limit;
  private boolean ended;
  private long line = 1;

  // of the record under the pen
  private int end;
  private int next;
  private int lines;
  private int firstEnd;
  private int firstNext;
  private boolean quotes;
  private boolean open;
  private boolean stray;
  private boolean ascii;
  private boolean tooLong;
  private int firstLineLength;

  public CsvRecords(InputStream in, char delimiter) {
    this.in = in;
    this.delimiter = (byte) delimiter;
    this.quotedFormat =
        CSVFormat.RFC4180
            .builder()
            .setDelimiter(delimiter)
            .setIgnoreEmptyLines(false)
            .setLenientEof(true)
            .setTrailingData(true)
            .get();
  }

  /**
   * The next record that is not an empty line; null at the end.
   *
   * @throws IOException when the stream breaks
   */
  public @Nullable CsvRecord next() throws IOException {
    while (cut()) {
      long at = line;
      line += lines;
      int from = start;
      start = next;
      if (end > from) {
        return record(at, from);
      }
    }
    return null;
  }

  /**
   * Takes back all but the first line of the record that was just returned, when its cells show
   * that a stray quote joined lines that do not belong together.
   */
  public CsvRecord onlyFirstLine(CsvRecord record) {
    line = record.line() + 1;
    start = firstNext;
    byte[] raw = Arrays.copyOf(record.raw().getBytes(StandardCharsets.UTF_8), firstLineLength);
    return new CsvRecord(
        record.line(),
        new String(raw, StandardCharsets.UTF_8),
        List.of(),
        false,
        "a quote opens in this line and is not closed in it; close it, or double it if it belongs"
            + " to the text");
  }

  private CsvRecord record(long at, int from) {
    if (tooLong) {
      String kept = text(from, Math.min(end, from + KEPT_OF_TOO_LONG));
      return new CsvRecord(
          at,
          kept,
          List.of(),
          false,
          "the row is longer than "
              + LONGEST_RECORD / 1024 / 1024
              + " MB; only its beginning is kept here, so split or shorten it in the file");
    }
    firstLineLength = firstEnd - from;
    if (open) {
      return new CsvRecord(
          at,
          text(from, end),
          List.of(),
          false,
          "a quote opens in this line and is never closed; close it, or double it if it belongs to"
              + " the text");
    }
    if (stray) {
      if (lines > 1) {
        line = at + 1;
        start = firstNext;
      }
      return new CsvRecord(
          at,
          text(from, firstEnd),
          List.of(),
          false,
          "text follows behind a closing quote; double a quote that belongs to the text, and close"
              + " the cell with one before the next comma");
    }
    String raw = ascii ? new String(buffer, from, end - from, StandardCharsets.ISO_8859_1) : null;
    if (raw == null) {
      try {
        raw = utf8.decode(ByteBuffer.wrap(buffer, from, end - from)).toString();
      } catch (CharacterCodingException e) {
        return new CsvRecord(
            at,
            new String(buffer, from, end - from, StandardCharsets.ISO_8859_1),
            List.of(),
            lines > 1,
            "the row is not UTF-8 text; it is shown here as Western European (Latin-1): check the"
                + " letters and try it again, or save the file as UTF-8");
      }
    }
    return new CsvRecord(at, raw, quotes ? quotedCells(raw) : plainCells(raw), lines > 1, null);
  }

  private String text(int from, int to) {
    return new String(buffer, from, to - from, StandardCharsets.UTF_8);
  }

  private List<String> plainCells(String raw) {
    var cells = new ArrayList<String>();
    int from = 0;
    for (int comma = raw.indexOf(delimiter); comma >= 0; comma = raw.indexOf(delimiter, from)) {
      cells.add(raw.substring(from, comma));
      from = comma + 1;
    }
    cells.add(raw.substring(from));
    return cells;
  }

  private List<String> quotedCells(String raw) {
    try (var parser = CSVParser.parse(new StringReader(raw), quotedFormat)) {
      var records = parser.getRecords();
      return records.isEmpty() ? List.of() : records.get(0).toList();
    } catch (IOException | java.io.UncheckedIOException e) {
      throw new IllegalStateException("a record in memory could not be read", e);
    }
  }

  /** Finds where the record that begins at {@code start} ends; false at the end of the stream. */
  private boolean cut() throws IOException {
    lines = 1;
    firstEnd = -1;
    quotes = false;
    open = false;
    stray = false;
    ascii = true;
    tooLong = false;
    boolean cellStart = true;
    boolean closed = false;
    int i = start;
    while (true) {
      if (i == limit) {
        if (!open && i - start >= LONGEST_RECORD) {
          return skipRest(i);
        }
        int length = i - start;
        if ((open && length >= LONGEST_RECORD) || !more()) {
          i = start + length;
          return (ended && length == 0) ? false : endWithout(i);
        }
        i = start + length;
      }
      byte b = buffer[i];
      if (b < 0) {
        ascii = false;
      }
      if (open) {
        if (b == '"') {
          open = false;
          closed = true;
        } else if (b == '\n') {
          if (firstEnd < 0) {
            markFirst(i);
          }
          if (++lines > MOST_LINES) {
            return endWithout(i);
          }
        }
      } else if (b == delimiter) {
        cellStart = true;
        closed = false;
      } else if (b == '\n' || b == '\r') {
        return endAt(i);
      } else if (b == '"' && (cellStart || (closed && buffer[i - 1] == '"'))) {
        quotes = true;
        open = true;
        closed = false;
        cellStart = false;
      } else {
        stray |= closed && b != ' ';
        cellStart = false;
      }
      i++;
    }
  }

  private void markFirst(int newline) {
    firstEnd = newline > start && buffer[newline - 1] == '\r' ? newline - 1 : newline;
    firstNext = newline + 1;
  }

  private boolean endAt(int newline) throws IOException {
    int length = newline - start;
    int after = length + 1;
    if (buffer[newline] == '\r') {
      if (newline + 1 == limit) {
        more();
      }
      if (start + after < limit && buffer[start + after] == '\n') {
        after++;
      }
    }
    end = start + length;
    next = start + after;
    if (firstEnd < 0) {
      firstEnd = end;
      firstNext = next;
    }
    return true;
  }

  /** The stream or our patience ended: an open quote makes only the first line a record. */
  private boolean endWithout(int i) {
    if (open && firstEnd >= 0) {
      end = firstEnd;
      next = firstNext;
      lines = 1;
    } else {
      end = i;
      next = i;
      firstEnd = end;
      firstNext = next;
    }
    return true;
  }

  /** A line without end: keep its beginning, drop the rest. */
  private boolean skipRest(int i) throws IOException {
    tooLong = true;
    byte[] kept = Arrays.copyOfRange(buffer, start, start + KEPT_OF_TOO_LONG);
    int at = i;
    while (true) {
      if (at == limit) {
        start = limit;
        if (!more()) {
          break;
        }
        at = start;
      }
      if (buffer[at] == '\n') {
        break;
      }
      at++;
    }
    // the kept beginning goes where the skipped text was
    int nextRecord = Math.min(at + 1, limit);
    byte[] rest = Arrays.copyOfRange(buffer, nextRecord, limit);
    buffer = new byte[Math.max(buffer.length, kept.length + rest.length + 1)];
    System.arraycopy(kept, 0, buffer, 0, kept.length);
    System.arraycopy(rest, 0, buffer, kept.length, rest.length);
    start = 0;
    end = kept.length;
    next = kept.length;
    firstEnd = end;
    firstNext = next;
    limit = kept.length + rest.length;
    return true;
  }

  /** Reads more behind what is there; moves the record under the pen to the front if need be. */
  private boolean more() throws IOException {
    if (ended) {
      return false;
    }
    if (start > 0) {
      int shift = start;
      System.arraycopy(buffer, start, buffer, 0, limit - start);
      limit -= shift;
      start = 0;
      end -= shift;
      next -= shift;
      firstNext -= shift;
      if (firstEnd >= 0) {
        firstEnd -= shift;
      }
    }
    if (limit == buffer.length) {
      buffer = Arrays.copyOf(buffer, buffer.length * 2);
    }
    int read = in.read(buffer, limit, buffer.length - limit);
    if (read < 0) {
      ended = true;
      return false;
    }
    limit += read;
    return true;
  }

  @Override
  public void close() throws IOException {
    in.close();
  }
}
