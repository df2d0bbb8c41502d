package towerledger.intake.csv;

import static org.assertj.core.api.Assertions.assertThat;

import java.io.ByteArrayInputStream;
import java.io.IOException;
import java.io.StringReader;
import java.nio.charset.StandardCharsets;
import java.util.ArrayList;
import java.util.List;
import java.util.Random;
import org.apache.commons.csv.CSVFormat;
import org.junit.jupiter.api.Test;

/** Records are cut as Commons CSV cuts them, and a broken one does not spoil its neighbours. */
class CsvRecordsTest {

  private static List<CsvRecord> records(String text) throws IOException {
    var list = new ArrayList<CsvRecord>();
    try (var records =
        new CsvRecords(new ByteArrayInputStream(text.getBytes(StandardCharsets.UTF_8)), ',')) {
      for (CsvRecord r = records.next(); r != null; r = records.next()) {
        list.add(r);
      }
    }
    return list;
  }

  @Test
  void cutsLikeTheLibraryWhateverTheTextHolds() throws IOException {
    var random = new Random(20260101);
    String[] pieces = {
      "a", "bc", "", " ", "\"x\"", "\"a,b\"", "\"a\nb\"", "\"a\"\"b\"", "é", "1.5"
    };
    for (int round = 0; round < 3_000; round++) {
      var text = new StringBuilder();
      int rows = 1 + random.nextInt(5);
      for (int row = 0; row < rows; row++) {
        text.append("k").append(row);
        for (int cell = random.nextInt(4); cell > 0; cell--) {
          text.append(',').append(pieces[random.nextInt(pieces.length)]);
        }
        text.append(random.nextBoolean() ? "\r\n" : "\n");
      }
      var expected = new ArrayList<List<String>>();
      try (var parser = CSVFormat.RFC4180.parse(new StringReader(text.toString()))) {
        parser.forEach(record -> expected.add(record.toList()));
      }

      assertThat(records(text.toString()))
          .as("seed 20260101, round %d: %s", round, text)
          .extracting(CsvRecord::cells)
          .isEqualTo(expected);
    }
  }

  @Test
  void spoilsOneLineWhereAQuoteIsNeverClosed() throws IOException {
    var records = records("a,b\n1,\"open\n2,x\n3,y\n");

    assertThat(records).hasSize(4);
    assertThat(records.get(1).problem()).contains("never closed");
    assertThat(records.get(1).raw()).isEqualTo("1,\"open");
    assertThat(records.get(2).cells()).containsExactly("2", "x");
    assertThat(records.get(3).line()).isEqualTo(4);
  }

  @Test
  void takesAQuoteInsidePlainTextAsText() throws IOException {
    assertThat(records("a,b\n1,a 2\" pipe\n2,x\n"))
        .extracting(CsvRecord::cells)
        .containsExactly(List.of("a", "b"), List.of("1", "a 2\" pipe"), List.of("2", "x"));
  }

  @Test
  void countsLinesThroughQuotedLineEndsAndEmptyLines() throws IOException {
    assertThat(records("a\n\n\"x\ny\"\n\nb\n"))
        .extracting(CsvRecord::line)
        .containsExactly(1L, 3L, 6L);
  }

  @Test
  void spoilsOneRecordWhereBytesAreNotUtf8() throws IOException {
    byte[] text = "a,b\n1,caf\u00e9\n2,x".getBytes(StandardCharsets.ISO_8859_1);
    var list = new ArrayList<CsvRecord>();
    try (var records = new CsvRecords(new ByteArrayInputStream(text), ',')) {
      for (CsvRecord r = records.next(); r != null; r = records.next()) {
        list.add(r);
      }
    }

    assertThat(list.get(1).problem()).contains("not UTF-8");
    assertThat(list.get(1).raw()).isEqualTo("1,café");
    assertThat(list.get(2).cells()).containsExactly("2", "x");
  }

  @Test
  void keepsTheBeginningOfAnEndlessLineAndGoesOn() throws IOException {
    String endless = "x".repeat(CsvRecords.LONGEST_RECORD + 100_000);
    var records = records("a,b\n" + endless + "\n2,x\n3,y\n");

    assertThat(records).hasSize(4);
    assertThat(records.get(1).problem()).contains("longer than 8 MB");
    assertThat(records.get(2).cells()).containsExactly("2", "x");
    assertThat(records.get(3).cells()).containsExactly("3", "y");
  }

  @Test
  void holdsACellOfAMegabyte() throws IOException {
    String cell = "y".repeat(1_000_000);

    assertThat(records("a,b\n1,\"" + cell + "\"\n").get(1).cells()).containsExactly("1", cell);
  }
}
