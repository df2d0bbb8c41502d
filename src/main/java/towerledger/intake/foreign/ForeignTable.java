package towerledger.intake.foreign;

import java.io.IOException;
import java.io.InputStream;
import java.io.OutputStream;
import java.nio.ByteBuffer;
import java.nio.CharBuffer;
import java.nio.charset.Charset;
import java.nio.charset.CharsetDecoder;
import java.nio.charset.CoderResult;
import java.nio.charset.CodingErrorAction;
import java.nio.charset.StandardCharsets;
import java.nio.file.Files;
import java.nio.file.Path;
import java.util.ArrayList;
import java.util.List;
import org.apache.commons.csv.CSVFormat;
import org.jspecify.annotations.Nullable;
import towerledger.intake.csv.Columns;
import towerledger.intake.csv.CsvRecord;
import towerledger.intake.csv.CsvRecords;
import towerledger.intake.csv.TextBytes;

/**
 * A table of others: CSV of any delimiter, its header perhaps below a title, in UTF-8, UTF-16 or
 * the Windows encoding of western Europe. Rows are read one by one, whatever its size.
 */
public final class ForeignTable {

  private static final List<Character> DELIMITERS = List.of(',', ';', '\t', '|');
  private static final int TITLES = 10;
  private static final int SAMPLED = 200;
  private static final Charset WINDOWS = Charset.forName("windows-1252");

  private final Path file;
  private final Charset charset;
  private final char delimiter;
  private final int headerAt;
  private final List<String> header;

  private ForeignTable(
      Path file, Charset charset, char delimiter, int headerAt, List<String> header) {
    this.file = file;
    this.charset = charset;
    this.delimiter = delimiter;
    this.headerAt = headerAt;
    this.header = header;
  }

  /**
   * Looks at a table.
   *
   * @param mapping tells delimiter and header; null to find them
   * @throws IllegalArgumentException when no header is found
   */
  public static ForeignTable read(Path file, @Nullable ForeignMapping mapping) throws IOException {
    Charset charset = charset(file);
    char delimiter = mapping == null ? delimiter(file, charset) : mapping.separator();
    int at = mapping == null ? header(file, charset, delimiter) : mapping.headerAt();
    List<List<String>> header = rows(file, charset, delimiter, at, 1);
    if (header.isEmpty() || header.get(0).stream().allMatch(String::isBlank)) {
      throw new IllegalArgumentException(
          "row %d names no columns; say which row does (header_row)".formatted(at));
    }
    return new ForeignTable(
        file,
        charset,
        delimiter,
        at,
        header.get(0).stream().map(name -> name.replace('\u00A0', ' ').strip()).toList());
  }

  /** Its columns. */
  public List<String> header() {
    return List.copyOf(header);
  }

  /** The first rows below the header. */
  public List<List<String>> firstRows(int most) throws IOException {
    return rows(file, charset, delimiter, headerAt + 1, most);
  }

  /**
   * A mapping to look over.
   *
   * @param questions takes what has to be settled before
   */
  public ForeignMapping suggest(Columns columns, List<String> questions) {
    List<List<String>> sample;
    try {
      sample = firstRows(SAMPLED);
    } catch (IOException e) {
      throw new java.io.UncheckedIOException(e);
    }
    var suggestion = new Suggestion(columns, header, sample);
    var mapping =
        new ForeignMapping(
            columns.file(),
            String.valueOf(delimiter),
            decimal(sample),
            headerAt,
            suggestion.columns());
    questions.addAll(suggestion.questions());
    return mapping;
  }

  /** What turns its rows into those of an interchange file. */
  public Converter converter(ForeignMapping mapping, Columns columns) {
    return new Converter(mapping, columns, header);
  }

  /**
   * Writes the whole table as an interchange file. Rows keep their order and, counted from the
   * header, their lines; one that cannot be cut into cells goes on as one cell, so that it waits in
   * quarantine whole.
   */
  public void convert(Converter converter, OutputStream out) throws IOException {
    long line = 1 + write(converter.header(), out);
    try (CsvRecords records = open(file, charset, delimiter)) {
      int row = 0;
      long above = 0;
      for (CsvRecord record = records.next(); record != null; record = records.next()) {
        row++;
        if (row <= headerAt) {
          above = record.line() - 1;
          continue;
        }
        for (; line < record.line() - above; line++) {
          out.write('\n');
        }
        if (record.problem() != null) {
          line += write(List.of(record.raw()), out);
        } else if (!record.isBlank()) {
          line += write(converter.convert(record.cells()), out);
        }
      }
    }
  }

  /** Writes a row and tells how many lines it takes. */
  private static long write(List<String> cells, OutputStream out) throws IOException {
    String text = CSVFormat.RFC4180.format(cells.toArray()) + "\n";
    out.write(text.getBytes(StandardCharsets.UTF_8));
    return text.chars().filter(c -> c == '\n').count();
  }

  /**
   * A number with two points has them between its thousands, so that a comma stands before the
   * decimals of the table; so does one with a comma before two digits where no number has a point.
   */
  private @Nullable String decimal(List<List<String>> sample) {
    if (sample.stream()
        .flatMap(List::stream)
        .anyMatch(cell -> cell.strip().matches("[-+]?\\d{1,3}(\\.\\d{3}){2,}(,\\d*)?"))) {
      return ",";
    }
    boolean comma = false;
    for (List<String> row : sample) {
      for (String cell : row) {
        String text = cell.strip();
        if (text.matches("[-+]?\\d+\\.\\d+")) {
          return ".";
        }
        comma |= text.matches("[-+]?(\\d{1,3}(\\.\\d{3})+|\\d+),(\\d{1,2}|\\d{4,})");
      }
    }
    return comma ? "," : ".";
  }

  /** The first row of those at the top that fills the most cells; rows of blanks count as rows. */
  private static int header(Path file, Charset charset, char delimiter) throws IOException {
    int best = 1;
    int most = 0;
    try (CsvRecords records = open(file, charset, delimiter)) {
      CsvRecord record = records.next();
      for (int row = 1; record != null && row <= TITLES; row++) {
        int filled = (int) record.cells().stream().filter(cell -> !cell.isBlank()).count();
        if (filled > most) {
          most = filled;
          best = row;
        }
        record = records.next();
      }
    }
    return best;
  }

  private static char delimiter(Path file, Charset charset) throws IOException {
    char best = ',';
    int most = 0;
    for (char candidate : DELIMITERS) {
      int cells =
          rows(file, charset, candidate, 1, TITLES).stream().mapToInt(List::size).max().orElse(0);
      if (cells > most) {
        most = cells;
        best = candidate;
      }
    }
    return best;
  }

  private static List<List<String>> rows(
      Path file, Charset charset, char delimiter, int from, int most) throws IOException {
    List<List<String>> rows = new ArrayList<>();
    try (CsvRecords records = open(file, charset, delimiter)) {
      int row = 0;
      for (CsvRecord record = records.next();
          record != null && rows.size() < most;
          record = records.next()) {
        row++;
        if (row >= from && (row == from || !record.isBlank())) {
          rows.add(record.problem() == null ? record.cells() : List.of(record.raw()));
        }
      }
    }
    return rows;
  }

  private static CsvRecords open(Path file, Charset charset, char delimiter) throws IOException {
    InputStream in = Files.newInputStream(file);
    return new CsvRecords(
        charset.equals(WINDOWS) ? new Transcoding(in, WINDOWS) : TextBytes.utf8(in), delimiter);
  }

  /** UTF-8 or UTF-16 where the bytes say so, else the Windows encoding. */
  private static Charset charset(Path file) throws IOException {
    CharsetDecoder decoder =
        StandardCharsets.UTF_8
            .newDecoder()
            .onMalformedInput(CodingErrorAction.REPORT)
            .onUnmappableCharacter(CodingErrorAction.REPORT);
    ByteBuffer bytes = ByteBuffer.allocate(64 * 1024);
    CharBuffer chars = CharBuffer.allocate(64 * 1024);
    try (InputStream in = TextBytes.utf8(Files.newInputStream(file))) {
      byte[] piece = new byte[32 * 1024];
      for (int read = in.read(piece); read >= 0; read = in.read(piece)) {
        bytes.put(piece, 0, read).flip();
        chars.clear();
        CoderResult result = decoder.decode(bytes, chars, false);
        if (result.isError()) {
          return WINDOWS;
        }
        bytes.compact();
      }
    }
    return StandardCharsets.UTF_8;
  }

  /** Text of a one-byte encoding as UTF-8. */
  private static final class Transcoding extends InputStream {

    private final InputStream in;
    private final Charset charset;
    private byte[] piece = new byte[0];
    private int at;

    Transcoding(InputStream in, Charset charset) {
      this.in = in;
      this.charset = charset;
    }

    @Override
    public int read() throws IOException {
      if (at == piece.length) {
        byte[] raw = in.readNBytes(16 * 1024);
        if (raw.length == 0) {
          return -1;
        }
        piece = new String(raw, charset).getBytes(StandardCharsets.UTF_8);
        at = 0;
      }
      return piece[at++] & 0xFF;
    }

    @Override
    public void close() throws IOException {
      in.close();
    }
  }
}
