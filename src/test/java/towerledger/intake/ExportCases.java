package towerledger.intake;

import static org.assertj.core.api.Assertions.assertThat;

import java.io.ByteArrayInputStream;
import java.io.ByteArrayOutputStream;
import java.io.IOException;
import java.nio.charset.StandardCharsets;
import java.nio.file.Path;
import java.util.Arrays;
import java.util.TreeMap;
import java.util.zip.ZipEntry;
import java.util.zip.ZipInputStream;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.api.io.TempDir;
import org.springframework.beans.factory.annotation.Autowired;

/** What goes out comes in again as the same, figure by figure, and no spreadsheet runs it. */
class ExportCases {

  @TempDir Path folder;
  @Autowired Importer importer;
  @Autowired Export export;

  private ImportReceipt take(byte[] zip) throws IOException {
    return Uploads.take(importer, folder, zip);
  }

  private byte[] exported() {
    var out = new ByteArrayOutputStream();
    export.write(out);
    return out.toByteArray();
  }

  static TreeMap<String, String> files(byte[] zip) throws IOException {
    var files = new TreeMap<String, String>();
    try (var in = new ZipInputStream(new ByteArrayInputStream(zip))) {
      for (ZipEntry entry = in.getNextEntry(); entry != null; entry = in.getNextEntry()) {
        files.put(entry.getName(), new String(in.readAllBytes(), StandardCharsets.UTF_8));
      }
    }
    return files;
  }

  @Test
  void takesItsOwnExportWithoutAnyChange() throws IOException {
    take(Uploads.book("EXP"));
    take(
        Uploads.zip(
            "register_readings.csv",
            "meter,read_at,register,note\nEXP-MU,2025-03-01,100.25,'=1+1\n",
            "pressure_readings.csv",
            "system,taken_at,supply_psi\nEXP-T1,2025-03-01T08:00,61.3\n",
            "heat_loads.csv",
            "system,start,end,chilled_water_ton_hours\nEXP-T1,2025-03-01,2025-04-01,12345.6\n",
            "visits.csv",
            "system,visited_at,observation\nEXP-T1,2025-03-01T08:00,\"-two, and\n\"\"more\"\"\"\n"));
    byte[] zip = exported();

    ImportReceipt receipt = take(zip);

    assertThat(receipt.files())
        .allSatisfy(file -> assertThat(file.unchanged()).as("%s", file).isEqualTo(file.rows()));
    var before = files(zip);
    assertThat(before).containsKey("ledger_revisions.csv");
    assertThat(before.get("register_readings.csv"))
        .contains("EXP-MU,2025-03-01,100.25,actual,'=1+1");
    assertThat(before.get("visits.csv")).contains("\"'-two, and\n\"\"more\"\"\"");
    // Revisions are appended by a job of their own, which may be at work on what was imported
    // before.
    var after = files(exported());
    assertThat(after.keySet()).isEqualTo(before.keySet());
    assertThat(before.keySet().stream().filter(name -> !name.equals("ledger_revisions.csv")))
        .allSatisfy(name -> assertThat(after.get(name)).as(name).isEqualTo(before.get(name)));
  }

  @Test
  void keepsTheNameThatASystemOfOneTowerWasGiven() throws IOException {
    take(Uploads.book("EXN"));
    byte[] named =
        Uploads.zip(
            "systems.csv",
            "system,site,name\nEXN-T1,EXN-S,Loop of one\nEXN-T2,EXN-S,Loop of two\n",
            "towers.csv",
            "tower,site,name,nominal_tons\nEXN-T1,EXN-S,Tower,300\nEXN-T2,EXN-S,Tower,300\n");
    take(named);

    assertThat(files(exported()).get("systems.csv"))
        .contains("EXN-T1,EXN-S,Loop of one,", "EXN-T2,EXN-S,Loop of two,");
    assertThat(take(named).files())
        .allSatisfy(file -> assertThat(file.unchanged()).as("%s", file).isEqualTo(file.rows()));
  }

  /** Where its neighbours contradict such a reading it gives way, so the mark has to travel. */
  @Test
  void keepsTheMarkOfAReadingThatWasTakenInDoubtUntilItIsCorrected() throws IOException {
    take(Uploads.book("EXD"));
    take(
        Uploads.zip(
            "register_readings.csv",
            "meter,read_at,register,doubtful\nEXD-MU,2025-03-01,9000,true\nEXD-MU,2025-04-01,2000,\n"));
    assertThat(readingsOut())
        .contains("EXD-MU,2025-03-01,9000,actual,,true")
        .contains("EXD-MU,2025-04-01,2000,actual,,false");

    take(Uploads.zip("register_readings.csv", "meter,read_at,register\nEXD-MU,2025-03-01,9000\n"));
    assertThat(readingsOut()).contains("EXD-MU,2025-03-01,9000,actual,,true");

    take(Uploads.zip("register_readings.csv", "meter,read_at,register\nEXD-MU,2025-03-01,1900\n"));
    assertThat(readingsOut())
        .contains("EXD-MU,2025-03-01,1900,actual,")
        .doesNotContain("EXD-MU,2025-03-01,1900,actual,,true");
    assertThat(readingsOut().lines().findFirst().orElseThrow().contains("doubtful"))
        .as("no column of its own where nothing was taken in doubt")
        .isEqualTo(readingsOut().lines().anyMatch(line -> line.endsWith(",true")));
  }

  private String readingsOut() throws IOException {
    return files(exported()).getOrDefault("register_readings.csv", "");
  }

  @Test
  void letsNoCellOutThatASpreadsheetWouldRun() throws IOException {
    take(Uploads.book("FRM"));
    take(
        Uploads.zip(
            "customers.csv",
            "customer,name,contact_name\nFRM,=HYPERLINK(\"\"x\"\"),@SUM(A1)\n"
                .replace("=HYPERLINK(\"\"x\"\")", "\"=HYPERLINK(\"\"x\"\")\"")));

    String customers = files(exported()).get("customers.csv");

    assertThat(Arrays.stream(customers.split("\r\n")).filter(line -> line.startsWith("FRM,")))
        .singleElement()
        .asString()
        .startsWith("FRM,\"'=HYPERLINK(\"\"x\"\")\",'@SUM(A1),");
  }
}
