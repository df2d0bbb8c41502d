package towerledger.intake;

import static org.assertj.core.api.Assertions.assertThat;
import static org.assertj.core.api.Assertions.assertThatThrownBy;

import java.io.IOException;
import java.nio.file.Path;
import java.time.LocalDate;
import java.time.ZoneOffset;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.api.io.TempDir;
import org.springframework.beans.factory.annotation.Autowired;

/** Rows and files that would be read for something else than was meant. */
abstract class RefusedRowsCases {

  @TempDir Path folder;
  @Autowired Importer importer;

  private ImportReceipt take(byte[] zip) throws IOException {
    return Uploads.take(importer, folder, zip);
  }

  private FileReceipt take(String file, String text) throws IOException {
    return take(Uploads.zip(file, text)).files().get(0);
  }

  /** A sample of RFA-T2 would else go to the tower's system or to the new one, by chance. */
  @Test
  void refusesASystemWithTheCodeOfATowerOfAnotherSystem() throws IOException {
    take(Uploads.book("RFA"));
    take(
        "towers.csv",
        "tower,site,name,system,nominal_tons\nRFA-T2,RFA-S,Second tower,RFA-T1,300\n");

    FileReceipt receipt =
        take("systems.csv", "system,site,name\nRFA-T2,RFA-S,Loop\nRFA-L,RFA-S,Loop\n");

    assertThat(receipt.added()).isEqualTo(1);
    assertThat(receipt.quarantined()).isEqualTo(1);
    assertThat(receipt.reasons().get(0))
        .contains("line 2")
        .contains("code 'RFA-T2' is that of a tower of another system")
        .contains("give the system another code");
    // The system of a tower that is one of its own is told of under the tower's code, as before.
    assertThat(take("systems.csv", "system,site,name\nRFA-T1,RFA-S,Loop of one\n").changed())
        .isEqualTo(1);
  }

  @Test
  void refusesATowerWithTheCodeOfAnotherSystem() throws IOException {
    take(Uploads.book("RFB"));
    take("systems.csv", "system,site,name\nRFB-L,RFB-S,Loop\n");

    FileReceipt receipt =
        take(
            "towers.csv",
            "tower,site,name,system,nominal_tons\nRFB-L,RFB-S,Tower,RFB-T1,300\nRFB-L,RFB-S,Tower,RFB-L,300\n");

    assertThat(receipt.added()).isEqualTo(1);
    assertThat(receipt.quarantined()).isEqualTo(1);
    assertThat(receipt.reasons().get(0))
        .contains("line 2")
        .contains("code 'RFB-L' is that of another system");
  }

  /** Six wheels show 0 to 999999; one digit too many is a slip of ten times the water. */
  @Test
  void refusesARegisterThatDoesNotFitOnTheWheelsOfItsMeter() throws IOException {
    take(Uploads.book("RFC"));

    FileReceipt receipt =
        take(
            "register_readings.csv",
            "meter,read_at,register\nRFC-MU,2025-03-01,999999.5\nRFC-MU,2025-04-01,1000000\n");

    assertThat(receipt.added()).isEqualTo(1);
    assertThat(receipt.quarantined()).isEqualTo(1);
    assertThat(receipt.reasons().get(0))
        .contains("line 3")
        .contains("does not fit on the 6 digits of meter RFC-MU");
  }

  /** A mistyped year (common practice, no source) would stand as the meter's last reading. */
  @Test
  void refusesWhatLiesMoreThanAYearAhead() throws IOException {
    take(Uploads.book("RFD"));
    LocalDate today = LocalDate.now(ZoneOffset.UTC);

    for (String[] file :
        new String[][] {
          {"register_readings.csv", "meter,read_at,register", "RFD-MU,%sT12:00Z,4711"},
          {"interval_volumes.csv", "meter,start,minutes,volume_gal", "RFD-MU,%sT12:00Z,15,4"},
          {"water_samples.csv", "system,taken_at,basin_calcium_mg_l_caco3", "RFD-T1,%sT12:00Z,90"},
          {"pressure_readings.csv", "system,taken_at,supply_psi", "RFD-T1,%sT12:00Z,60"},
          {"visits.csv", "system,visited_at,events", "RFD-T1,%sT12:00Z,start-up"},
          {"heat_loads.csv", "system,start,end,heat_rejected_mmbtu", "RFD-T1,2025-01-01,%s,9"},
          {"weather_hours.csv", "station,hour_start,dry_bulb_f,wet_bulb_f", "RFD-W,%sT12:00Z,80,70"}
        }) {
      boolean span = file[0].startsWith("heat");
      String far = file[2].formatted(today.plusYears(36));
      String near = file[2].formatted(span ? LocalDate.of(2025, 2, 1) : today.plusDays(300));
      FileReceipt receipt = take(file[0], file[1] + "\n" + far + "\n" + near + "\n");

      assertThat(receipt.added()).as("%s", receipt).isEqualTo(1);
      assertThat(receipt.reasons()).singleElement().asString().contains("line 2", "ahead");
    }
  }

  @Test
  void pointsToTheWayForTablesWithColumnsOfTheirOwn() {
    assertThatThrownBy(() -> take("march-readings.csv", "Meter ID,Date,Reading\nM1,3/4/2025,5\n"))
        .isInstanceOf(UploadRefused.class)
        .hasMessageContaining("file 'march-readings.csv' is not known; nothing was taken")
        .hasMessageContaining("/intake/foreign")
        .hasMessageContaining("/api/v1/foreign-tables");
  }
}
