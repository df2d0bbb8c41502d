package towerledger.intake;

import static org.assertj.core.api.Assertions.assertThat;
import static org.assertj.core.api.Assertions.assertThatThrownBy;

import java.io.IOException;
import java.nio.file.Path;
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

  @Test
  void pointsToTheWayForTablesWithColumnsOfTheirOwn() {
    assertThatThrownBy(() -> take("march-readings.csv", "Meter ID,Date,Reading\nM1,3/4/2025,5\n"))
        .isInstanceOf(UploadRefused.class)
        .hasMessageContaining("file 'march-readings.csv' is not known; nothing was taken")
        .hasMessageContaining("/intake/foreign")
        .hasMessageContaining("/api/v1/foreign-tables");
  }
}
