package towerledger.intake;

import static org.assertj.core.api.Assertions.assertThat;
import static org.assertj.core.api.Assertions.assertThatThrownBy;

import java.io.IOException;
import java.nio.charset.StandardCharsets;
import java.nio.file.Path;
import java.util.List;
import java.util.Map;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.api.io.TempDir;
import org.springframework.beans.factory.annotation.Autowired;
import org.springframework.jdbc.core.simple.JdbcClient;

/** What an import takes, what it does not, and that nothing is lost or doubled. */
class ImportCases {

  @TempDir Path folder;
  @Autowired Importer importer;
  @Autowired JdbcClient jdbc;

  ImportReceipt take(byte[] zip) throws IOException {
    return Uploads.take(importer, folder, zip);
  }

  FileReceipt take(String file, String text) throws IOException {
    return take(Map.of(file, text.getBytes(StandardCharsets.UTF_8)));
  }

  FileReceipt take(Map<String, byte[]> file) throws IOException {
    return take(Uploads.zip(file)).files().get(0);
  }

  private static void assertCounts(
      FileReceipt receipt, long added, long changed, long unchanged, long quarantined) {
    assertThat(
            List.of(receipt.added(), receipt.changed(), receipt.unchanged(), receipt.quarantined()))
        .as("%s", receipt)
        .isEqualTo(List.of(added, changed, unchanged, quarantined));
  }

  private List<Map<String, Object>> readings(String meter) {
    return jdbc.sql(
            """
            SELECT r.read_at, r.register, r.give_or_take_hours FROM meter_register_reading r
            JOIN site_meter m ON m.id = r.meter_id WHERE m.code = ? ORDER BY r.read_at""")
        .param(meter)
        .query()
        .listOfRows();
  }

  @Test
  void takesTheDemoBundleWholeAndASecondTimeChangesNothing() throws IOException {
    try (var upload = Upload.of(Path.of("demo-data"))) {
      importer.take(upload, ImportRequest.startUp("demo"));
    }
    try (var upload = Upload.of(Path.of("demo-data"))) {
      ImportReceipt second = importer.take(upload, ImportRequest.startUp("demo"));

      assertThat(second.files()).filteredOn(file -> file.rows() > 0).hasSize(17);
      assertThat(second.files()).allSatisfy(file -> assertCounts(file, 0, 0, file.rows(), 0));
      assertThat(second.reconciliation().status()).isEqualTo("done");
    }
  }

  @Test
  void takesFilesInTheOrderInWhichTheyDependOnEachOther() throws IOException {
    ImportReceipt receipt = take(Uploads.book("ORD"));

    assertThat(receipt.files())
        .extracting(FileReceipt::file)
        .containsExactly("customers.csv", "sites.csv", "towers.csv", "meters.csv");
    assertThat(receipt.files()).allSatisfy(file -> assertThat(file.added()).isEqualTo(file.rows()));
    assertThat(
            jdbc.sql(
                    """
                    SELECT g.setting_value FROM site_setting g
                    JOIN site_system y ON y.id = g.system_id
                    WHERE y.code = 'ORD-T1' AND g.setting = 'target_cycles'""")
                .query(String.class)
                .single())
        .isEqualTo("4.0");
  }

  @Test
  void takesTowersBeforeTheTowerWhoseSystemTheyShare() throws IOException {
    take(Uploads.book("SHR"));

    FileReceipt receipt =
        take(
            "towers.csv",
            """
            tower,site,name,system,nominal_tons
            SHR-B,SHR-S,Second,SHR-A,100
            SHR-A,SHR-S,First,,100
            """);

    assertCounts(receipt, 2, 0, 0, 0);
  }

  @Test
  void keepsTheOlderValueOfACorrectedReading() throws IOException {
    take(Uploads.book("COR"));
    String header = "meter,read_at,register\n";
    take("register_readings.csv", header + "COR-MU,2025-03-01T08:00,100\n");

    FileReceipt corrected = take("register_readings.csv", header + "COR-MU,2025-03-01T08:00,105\n");
    FileReceipt again = take("register_readings.csv", header + "COR-MU,2025-03-01T08:00,105.0\n");

    assertCounts(corrected, 0, 1, 0, 0);
    assertCounts(again, 0, 0, 1, 0);
    assertThat(readings("COR-MU")).hasSize(1);
    take("register_readings.csv", header + "COR-MU,2025-02-01T08:00,90\n");
    assertThat(
            jdbc.sql("SELECT last_read_at FROM site_meter WHERE code = 'COR-MU'")
                .query(java.time.OffsetDateTime.class)
                .single())
        .as("the newest reading, whatever comes after it")
        .isEqualTo(
            jdbc.sql(
                    """
                    SELECT MAX(r.read_at) FROM meter_register_reading r
                    JOIN site_meter m ON m.id = r.meter_id WHERE m.code = 'COR-MU'""")
                .query(java.time.OffsetDateTime.class)
                .single());
    assertThat(readings("COR-MU").get(1).get("register").toString()).startsWith("105");
    assertThat(
            jdbc.sql(
                    """
                    SELECT c.register FROM meter_register_correction c
                    JOIN site_meter m ON m.id = c.meter_id WHERE m.code = 'COR-MU'""")
                .query(java.math.BigDecimal.class)
                .single())
        .isEqualByComparingTo("100");
  }

  @Test
  void leavesACorrectionStandingWhenTheOldFileComesAgain() throws IOException {
    take(Uploads.book("OVR"));
    String old = "meter,read_at,register\nOVR-MU,2025-03-01T08:00,100\n";
    take("register_readings.csv", old);
    take("register_readings.csv", old.replace(",100", ",105"));

    FileReceipt repeated = take("register_readings.csv", old);

    assertCounts(repeated, 0, 0, 1, 0);
    assertThat(repeated.reasons()).anyMatch(reason -> reason.contains("corrected since"));
    assertThat(readings("OVR-MU").get(0).get("register").toString()).startsWith("105");
  }

  @Test
  void countsTwoValuesForOneInstantInOneFileTheSameEachTime() throws IOException {
    take(Uploads.book("TWO"));
    String text =
        """
        meter,read_at,register
        TWO-MU,2025-03-01T08:00,100
        TWO-MU,2025-03-01T08:00,105
        TWO-MU,2025-03-01T08:00,105
        """;

    assertCounts(take("register_readings.csv", text), 1, 1, 1, 0);
    assertCounts(take("register_readings.csv", text), 0, 0, 3, 0);
    assertThat(readings("TWO-MU").get(0).get("register").toString()).startsWith("105");
  }

  @Test
  void completesASampleFromTwoRowsAndNeverWipesOutWhatIsKnown() throws IOException {
    take(Uploads.book("SMP"));
    take(
        "water_samples.csv",
        "system,taken_at,basin_conductivity_us_cm\nSMP-T1,2025-03-01T08:00,1500\n");

    FileReceipt chloride =
        take(
            "water_samples.csv",
            "system,taken_at,basin_conductivity_us_cm,basin_chloride_mg_l\n"
                + "SMP-T1,2025-03-01T08:00,,210\n");

    assertCounts(chloride, 0, 1, 0, 0);
    var sample =
        jdbc.sql(
                """
                SELECT w.basin_conductivity_us_cm, w.basin_chloride_mg_l
                FROM logsheet_water_sample w JOIN site_system y ON y.id = w.system_id
                WHERE y.code = 'SMP-T1'""")
            .query()
            .singleRow();
    assertThat(sample.values()).containsExactly(1500.0, 210.0);
  }

  @Test
  void readsLocalTimesOffsetsAndBareDates() throws IOException {
    take(Uploads.book("TIM"));

    FileReceipt receipt =
        take(
            "register_readings.csv",
            """
            meter,read_at,register
            TIM-MU,2025-07-01T08:00,1
            TIM-MU,2025-07-02T08:00-04:00,2
            TIM-MU,2025-07-03,3
            TIM-MU,2025-07-04 08:00,4
            TIM-MU,2025-11-02T01:30,5
            TIM-MU,2025-03-09T02:30,6
            TIM-MU,2025-11-02T01:30-06:00,7
            """);

    assertCounts(receipt, 5, 0, 0, 2);
    assertThat(receipt.reasons().get(0)).contains("line 6", "came twice", "-05:00 or -06:00");
    assertThat(receipt.reasons().get(1)).contains("line 7", "does not exist");
    assertThat(
            jdbc.sql(
                    """
                    SELECT r.read_at FROM meter_register_reading r
                    JOIN site_meter m ON m.id = r.meter_id WHERE m.code = 'TIM-MU'
                    ORDER BY r.read_at""")
                .query((row, n) -> row.getObject(1, java.time.OffsetDateTime.class).toInstant())
                .list())
        .containsExactly(
            java.time.Instant.parse("2025-07-01T13:00:00Z"),
            java.time.Instant.parse("2025-07-02T12:00:00Z"),
            java.time.Instant.parse("2025-07-03T17:00:00Z"),
            java.time.Instant.parse("2025-07-04T13:00:00Z"),
            java.time.Instant.parse("2025-11-02T07:30:00Z"));
    assertThat(readings("TIM-MU").get(2).get("give_or_take_hours")).isEqualTo(12.0);
  }

  @Test
  void readsEitherUnitSystemIntoTheSameFigure() throws IOException {
    take(Uploads.book("UNI"));

    take(
        "interval_volumes.csv",
        "meter,start,minutes,volume_gal\nUNI-MU,2025-03-01T00:00Z,60,100\n");
    FileReceipt si =
        take(
            "interval_volumes.csv",
            "meter,start,minutes,volume_l\nUNI-MU,2025-03-01T00:00Z,60,378.5411784\n");

    assertCounts(si, 0, 0, 1, 0);
  }

  @Test
  void refusesAFileWithAnUnknownColumnAndTakesNothingOfTheUpload() throws IOException {
    take(Uploads.book("UNK"));
    long before = jdbc.sql("SELECT COUNT(*) FROM logsheet_pressure").query(Long.class).single();

    assertThatThrownBy(
            () ->
                take(
                    Uploads.zip(
                        "pressure_readings.csv",
                        "system,taken_at,supply_psi\nUNK-T1,2025-03-01T08:00,60\n",
                        "register_readings.csv",
                        "meter,read_at,register,colour\nUNK-MU,2025-03-01,1,blue\n")))
        .isInstanceOf(UploadRefused.class)
        .hasMessageContaining("column 'colour' is not known");
    assertThat(jdbc.sql("SELECT COUNT(*) FROM logsheet_pressure").query(Long.class).single())
        .isEqualTo(before);
  }

  @Test
  void refusesBothTwinsOfAUnitAndAMissingRequiredColumn() {
    assertThatThrownBy(() -> take("pressure_readings.csv", "system,supply_psi,supply_kpa\nX,1,2\n"))
        .isInstanceOf(UploadRefused.class)
        .hasMessageContaining("not both")
        .hasMessageContaining("column 'taken_at' is missing");
  }

  @Test
  void refusesRatesThatMakeNoSenseWithTheRowAndTheRemedy() throws IOException {
    List<FileReceipt> files =
        take(Uploads.zip(
                "rate_schedules.csv",
                """
                    schedule,service,effective_from,billing_unit,sewer_basis,sewer_percent
                    RTS-A,sewer,2025-01-01,kgal,percent-of-water,140
                    RTS-B,water,2025-01-01,barrel,,
                    RTS-C,water,2025-01-01,kgal,,
                    RTS-C,water,2025-01-01,ccf,,
                    """,
                "rate_blocks.csv",
                """
                    schedule,effective_from,first_month,last_month,from_units,rate
                    RTS-C,2025-01-01,,,50,6
                    RTS-C,2025-01-01,,,0,4
                    RTS-C,2025-01-01,,,50,7
                    RTS-D,2025-01-01,,,0,4
                    """))
            .files();

    FileReceipt schedules = files.get(0);
    assertCounts(schedules, 1, 0, 0, 3);
    assertThat(schedules.reasons().get(0)).contains("line 2", "sewer_percent of 140 is outside");
    assertThat(schedules.reasons().get(1)).contains("line 3", "'barrel'");
    assertThat(schedules.reasons().get(2)).contains("line 5", "two versions from 2025-01-01");
    FileReceipt blocks = files.get(1);
    assertCounts(blocks, 2, 0, 0, 2);
    assertThat(blocks.reasons().get(0)).contains("line 4", "begin at 50 units", "keep one");
    assertThat(blocks.reasons().get(1)).contains("line 5", "RTS-D", "rate_schedules");
  }

  @Test
  void refusesToMoveAMeterToAnotherSystem() throws IOException {
    take(Uploads.book("MOV"));
    take(Uploads.book("MOW"));

    FileReceipt receipt = take("meters.csv", "meter,system,role,unit\nMOV-MU,MOW-T1,makeup,gal\n");

    assertCounts(receipt, 0, 0, 0, 1);
    assertThat(receipt.reasons().get(0)).contains("may not move");
  }

  @Test
  void keepsEveryBadRowWithItsLineTextAndReason() throws IOException {
    take(Uploads.book("BAD"));

    FileReceipt receipt =
        take(
            "register_readings.csv",
            """
            meter,read_at,register,kind,note
            BAD-MU,2025-02-30,1,,
            BAD-MU,2025-03-01,NaN,,
            BAD-MU,2025-03-01,-5,,
            NOBODY,2025-03-01,5,,
            BAD-MU,1899-03-01,5,,
            BAD-MU,2025-03-02,"1,234",,
            BAD-MU,2025-03-03,5,guess,
            BAD-MU,2025-03-04,5
            BAD-MU,2025-03-05,5,,"never closed
            BAD-MU,2025-03-06,5,,"two
            lines"
            BAD-MU,2025-03-07,5,,fine
            """);

    assertCounts(receipt, 2, 0, 0, 9);
    var waiting =
        jdbc.sql(
                """
                SELECT line, raw, reason FROM intake_quarantine
                WHERE raw LIKE '%BAD-MU%' OR raw LIKE 'NOBODY%' ORDER BY line""")
            .query()
            .listOfRows();
    assertThat(waiting).hasSize(9);
    assertThat(waiting.get(3).get("reason").toString()).contains("meter 'NOBODY' is not known");
    assertThat(waiting.get(8).get("raw").toString())
        .isEqualTo("BAD-MU,2025-03-05,5,,\"never closed");
  }

  @Test
  void keepsARowThatWaitsOnceAndSettlesItWhenItCanBeTaken() throws IOException {
    String text = "meter,read_at,register\nSET-MU,2025-03-01T08:00,1\n";
    take("register_readings.csv", text);
    take("register_readings.csv", text);
    String waiting =
        "SELECT COUNT(*) FROM intake_quarantine WHERE raw LIKE 'SET-MU%' AND status = ";
    assertThat(jdbc.sql(waiting + "'waiting'").query(Long.class).single()).isEqualTo(1);

    take(Uploads.book("SET"));
    assertCounts(take("register_readings.csv", text), 1, 0, 0, 0);

    assertThat(jdbc.sql(waiting + "'waiting'").query(Long.class).single()).isZero();
    assertThat(jdbc.sql(waiting + "'mended'").query(Long.class).single()).isEqualTo(1);
  }

  @Test
  void readsTheEncodingsOfSpreadsheets() throws IOException {
    take(Uploads.book("ENC"));
    String text = "meter,read_at,register,note\r\nENC-MU,2025-03-0%d,%d,crème\r\n";
    byte[] bom = ("\uFEFF" + text.formatted(1, 1)).getBytes(StandardCharsets.UTF_8);
    byte[] utf16 = ("\uFEFF" + text.formatted(2, 2)).getBytes(StandardCharsets.UTF_16LE);
    byte[] latin1 = text.formatted(3, 3).getBytes(StandardCharsets.ISO_8859_1);
    byte[] bare16 = text.formatted(4, 4).getBytes(StandardCharsets.UTF_16LE);

    assertCounts(take(Map.of("register_readings.csv", bom)), 1, 0, 0, 0);
    assertCounts(take(Map.of("register_readings.csv", utf16)), 1, 0, 0, 0);
    FileReceipt western = take(Map.of("register_readings.csv", latin1));
    assertCounts(western, 0, 0, 0, 1);
    assertThat(western.reasons().get(0)).contains("not UTF-8");
    assertThatThrownBy(() -> take(Map.of("register_readings.csv", bare16)))
        .isInstanceOf(UploadRefused.class)
        .hasMessageContaining("UTF-16");
  }

  @Test
  void refusesUploadsThatAreBrokenOrReachOutsideThemselves() {
    byte[] book = Uploads.book("BRK");
    byte[] half = java.util.Arrays.copyOf(book, book.length / 2);
    byte[] damaged = book.clone();
    damaged[60] ^= 0x55;

    assertThatThrownBy(() -> take(half)).isInstanceOf(UploadRefused.class);
    assertThatThrownBy(() -> take(damaged)).isInstanceOf(UploadRefused.class);
    assertThatThrownBy(() -> take(Uploads.zip("../customers.csv", "customer,name\nX,Y\n")))
        .isInstanceOf(UploadRefused.class)
        .hasMessageContaining("outside itself");
    assertThatThrownBy(() -> take(new byte[0]))
        .isInstanceOf(UploadRefused.class)
        .hasMessageContaining("is empty");
    assertThatThrownBy(() -> take(Uploads.zip("customers.csv", "")))
        .isInstanceOf(UploadRefused.class)
        .hasMessageContaining("is empty");
    assertThatThrownBy(() -> take(Uploads.zip("clients.csv", "customer,name\nX,Y\n")))
        .isInstanceOf(UploadRefused.class)
        .hasMessageContaining("'clients.csv' is not known");
  }

  @Test
  void refusesAZipThatBursts() {
    byte[] zeros = new byte[100 * 1024 * 1024];

    assertThatThrownBy(() -> take(Uploads.zip(Map.of("register_readings.csv", zeros))))
        .isInstanceOf(UploadRefused.class)
        .hasMessageContaining("unpacks to more than");
  }
}
