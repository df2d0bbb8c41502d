package towerledger.intake;

import static org.assertj.core.api.Assertions.assertThat;

import java.nio.file.Path;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.EnumSource;
import towerledger.intake.RunningLedger.Database;

/** The demo bundle goes in whole, on both databases, and a second time changes nothing. */
class DemoBundleIT {

  @ParameterizedTest
  @EnumSource(Database.class)
  void takesEveryRowOfTheDemoAndNothingTwice(Database database) {
    var ledger = RunningLedger.on(database).emptied();

    ImportReceipt first = ledger.take(Path.of("demo-data"));

    assertThat(first.files()).hasSize(17);
    assertThat(first.files())
        .filteredOn(file -> file.rows() > 0)
        .allSatisfy(
            file -> {
              assertThat(file.reasons()).isEmpty();
              assertThat(file.added()).isEqualTo(file.rows());
            });
    assertThat(ledger.count("site_system")).isEqualTo(14);
    assertThat(ledger.count("site_tower")).isEqualTo(16);

    ImportReceipt second = ledger.take(Path.of("demo-data"));

    assertThat(second.files())
        .allSatisfy(file -> assertThat(file.unchanged()).isEqualTo(file.rows()));
    assertThat(second.reconciliation().status()).isEqualTo("done");
    assertThat(ledger.count("intake_quarantine")).isZero();
    assertThat(ledger.count("meter_register_correction")).isZero();
    assertThat(ledger.count("logsheet_correction")).isZero();
  }
}
