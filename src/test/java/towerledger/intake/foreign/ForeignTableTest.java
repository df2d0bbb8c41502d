package towerledger.intake.foreign;

import static org.assertj.core.api.Assertions.assertThat;
import static org.assertj.core.api.Assertions.assertThatThrownBy;

import java.io.ByteArrayOutputStream;
import java.io.IOException;
import java.nio.charset.Charset;
import java.nio.charset.StandardCharsets;
import java.nio.file.Files;
import java.nio.file.Path;
import java.util.ArrayList;
import java.util.List;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.api.io.TempDir;
import towerledger.intake.csv.Columns;
import towerledger.intake.csv.Twin;

/** Tables as customers send them. */
class ForeignTableTest {

  private static final Columns READINGS = new Columns("register_readings");
  private static final Columns INTERVALS = new Columns("interval_volumes");

  static {
    READINGS.required("meter");
    READINGS.required("read_at");
    READINGS.requiredNumber("register", 0, 1e12);
    READINGS.optional("note");
    INTERVALS.required("meter");
    INTERVALS.required("start");
    INTERVALS.requiredNumber("minutes", 1, 46080);
    INTERVALS.requiredNumber("volume_gal", Twin.GALLONS, 0, 1e8);
  }

  @TempDir Path folder;

  @Test
  void titleSemicolonsAndCommaDecimalsAreFound() throws IOException {
    // as a spreadsheet in a European setting saves it, in its own encoding
    ForeignTable table =
        read(
            """
            Zählerstände Werk Süd;;;
            Meter No.;Date;Time;Reading
            T-1;17.3.2025;8:05;1.234,5

            T-1;18.3.2025;8:10;1.240,75
            """,
            Charset.forName("windows-1252"));
    List<String> questions = new ArrayList<>();

    ForeignMapping mapping = table.suggest(READINGS, questions);

    assertThat(table.header()).containsExactly("Meter No.", "Date", "Time", "Reading");
    assertThat(questions).isEmpty();
    assertThat(mapping.delimiter()).isEqualTo(";");
    assertThat(mapping.decimal()).isEqualTo(",");
    assertThat(mapping.headerRow()).isEqualTo(2);
    assertThat(converted(table, mapping, READINGS))
        .containsExactly(
            "meter,read_at,register",
            "T-1,2025-03-17T08:05:00,1234.5",
            "",
            "T-1,2025-03-18T08:10:00,1240.75");
  }

  @Test
  void twoPointsInANumberStandBetweenItsThousands() throws IOException {
    ForeignTable table =
        read(
            "Meter;Date;Reading\nT-1;2025-03-17;3.489.120\nT-1;2025-03-18;3.498.455\n",
            StandardCharsets.UTF_8);

    ForeignMapping mapping = table.suggest(READINGS, new ArrayList<>());

    assertThat(mapping.decimal()).isEqualTo(",");
    assertThat(converted(table, mapping, READINGS)).contains("T-1,2025-03-17,3489120");
  }

  @Test
  void americanDatesWithNoonAndThousandsAreRead() throws IOException {
    ForeignTable table =
        read(
            """
            Meter ID,Read Date,Meter Reading,Comments
            M1,3/31/2025 1:05 PM,"1,234",fine
            M1,4/1/2025 12:00 AM,"1,300",
            """,
            StandardCharsets.UTF_8);
    List<String> questions = new ArrayList<>();

    ForeignMapping mapping = table.suggest(READINGS, questions);

    assertThat(questions).isEmpty();
    assertThat(converted(table, mapping, READINGS))
        .containsExactly(
            "meter,read_at,register,note",
            "M1,2025-03-31T13:05:00,1234,fine",
            "M1,2025-04-01T00:00:00,1300,");
  }

  @Test
  void datesThatCanBeReadTwoWaysAreAskedFor() throws IOException {
    ForeignTable table =
        read("meter,date,reading\nM1,3/4/2025,5\nM1,5/4/2025,6\n", StandardCharsets.UTF_8);
    List<String> questions = new ArrayList<>();

    ForeignMapping mapping = table.suggest(READINGS, questions);

    assertThat(questions)
        .singleElement()
        .asString()
        .contains("'3/4/2025'", "M/d/uuuu", "d/M/uuuu", "choose one");
    assertThat(mapping.columns().get(1).pattern()).isNull();
    // until somebody chooses, the cell goes on as it stands and waits in quarantine
    assertThat(converted(table, mapping, READINGS).get(1)).isEqualTo("M1,3/4/2025,5");
  }

  @Test
  void unitOfAVolumeIsTakenFromItsColumnOrChosen() throws IOException {
    ForeignTable table =
        read(
            "Timestamp,Consumption (m³)\n2025-03-01 00:00,1.5\n2025-03-01 01:00,n/a\n",
            StandardCharsets.UTF_8);
    List<String> questions = new ArrayList<>();

    ForeignMapping suggested = table.suggest(INTERVALS, questions);
    ForeignMapping settled =
        new ForeignMapping(
            "interval_volumes",
            suggested.delimiter(),
            null,
            null,
            List.of(
                new ForeignColumn("meter", null, null, "M1", null, null),
                new ForeignColumn("minutes", null, null, "60", null, null),
                ForeignColumn.from("start", "Timestamp"),
                ForeignColumn.from("volume_l", "Consumption (m³)").withUnit("m3")));

    assertThat(questions).hasSize(2).allMatch(q -> q.contains("map one or give a constant"));
    assertThat(suggested.columns())
        .anyMatch(c -> c.column().equals("volume_gal") && "m3".equals(c.unit()));
    assertThat(converted(table, settled, INTERVALS))
        .containsExactly(
            "meter,minutes,start,volume_l",
            "M1,60,2025-03-01 00:00,1500.00",
            "M1,60,2025-03-01 01:00,n/a");
  }

  @Test
  void rowsOfBlanksAboveTheHeaderAreCounted() throws IOException {
    ForeignTable table =
        read("Plant;;\n;;\nMeter;Date;Reading\nM1;2025-01-01;5\n", StandardCharsets.UTF_8);

    assertThat(table.header()).containsExactly("Meter", "Date", "Reading");
    assertThat(table.firstRows(5)).containsExactly(List.of("M1", "2025-01-01", "5"));
  }

  @Test
  void mappingsThatDoNotFitAreRefused() throws IOException {
    ForeignTable table = read("a,b\n1,2\n", StandardCharsets.UTF_8);

    assertRefused(table, ForeignColumn.from("meter", "c"), "no column 'c'; it has [a, b]");
    assertRefused(table, ForeignColumn.from("colour", "a"), "has no column 'colour'");
    assertRefused(
        table, ForeignColumn.from("register", "a").withUnit("m3"), "takes no unit; choose");
    assertThatThrownBy(() -> ForeignColumn.from("read_at", "a").withPattern("qqqq{"))
        .hasMessageContaining("is not understood");
    assertThatThrownBy(() -> new ForeignColumn("meter", "a", null, "b", null, null))
        .hasMessageContaining("either 'from'");
    assertThatThrownBy(() -> new ForeignMapping("x", ":", null, null, List.of()))
        .hasMessageContaining("delimiter ':' is not known");
  }

  private static void assertRefused(ForeignTable table, ForeignColumn column, String words) {
    assertThatThrownBy(
            () ->
                table.converter(
                    new ForeignMapping("register_readings", null, null, null, List.of(column)),
                    READINGS))
        .isInstanceOf(IllegalArgumentException.class)
        .hasMessageContaining(words);
  }

  private ForeignTable read(String text, Charset charset) throws IOException {
    Path file = folder.resolve("table");
    Files.write(file, text.getBytes(charset));
    return ForeignTable.read(file, null);
  }

  private static List<String> converted(ForeignTable table, ForeignMapping mapping, Columns columns)
      throws IOException {
    var out = new ByteArrayOutputStream();
    table.convert(table.converter(mapping, columns), out);
    return out.toString(StandardCharsets.UTF_8).lines().toList();
  }
}
