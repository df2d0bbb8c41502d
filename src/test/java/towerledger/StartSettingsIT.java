package towerledger;

import static org.assertj.core.api.Assertions.assertThat;
import static org.assertj.core.api.Assertions.assertThatThrownBy;

import java.io.IOException;
import java.nio.file.Files;
import java.nio.file.Path;
import java.util.UUID;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.api.extension.ExtendWith;
import org.junit.jupiter.api.io.TempDir;
import org.springframework.boot.builder.SpringApplicationBuilder;
import org.springframework.boot.test.system.CapturedOutput;
import org.springframework.boot.test.system.OutputCaptureExtension;

/** A setting that is wrong is named to whoever starts the program, without the program's inside. */
@ExtendWith(OutputCaptureExtension.class)
class StartSettingsIT {

  private static final String MEMORY =
      "--spring.datasource.url=jdbc:h2:mem:%s;CASE_INSENSITIVE_IDENTIFIERS=TRUE";

  @TempDir Path folder;

  @Test
  void namesAFolderThatCannotHoldTheDatabase(CapturedOutput output) throws IOException {
    Path file = Files.writeString(folder.resolve("no-folder"), "");
    refusesToStart("--TOWERLEDGER_DATA=" + file);
    assertThat(said(output)).contains("no-folder").contains("TOWERLEDGER_DATA");
  }

  @Test
  void namesADatabaseThatDoesNotAnswer(CapturedOutput output) {
    refusesToStart(
        "--spring.datasource.url=jdbc:postgresql://localhost:1/none",
        "--spring.datasource.hikari.initialization-fail-timeout=1");
    assertThat(said(output)).contains("does not answer").contains("SPRING_DATASOURCE_URL");
  }

  @Test
  void namesTheFirstLoginThatIsNoAddress(CapturedOutput output) {
    refusesToStart(MEMORY.formatted(UUID.randomUUID()), "--TOWERLEDGER_ADMIN_EMAIL=nobody");
    assertThat(said(output)).contains("TOWERLEDGER_ADMIN_EMAIL is 'nobody'");
  }

  /** The rules of SP 800-63B-4 that every other password is held to. */
  @Test
  void saysThatTheFirstPasswordIsShort(CapturedOutput output) {
    new SpringApplicationBuilder(TowerLedgerApplication.class)
        .run(
            "--server.port=0",
            MEMORY.formatted(UUID.randomUUID()),
            "--TOWERLEDGER_ADMIN_EMAIL=first@ledger.test",
            "--TOWERLEDGER_ADMIN_PASSWORD=qzv81-short")
        .close();
    assertThat(output.getAll())
        .contains(
            "TOWERLEDGER_ADMIN_PASSWORD is one the ledger would take from nobody else (TOO_SHORT)")
        .doesNotContain("qzv81-short");
  }

  private static void refusesToStart(String... arguments) {
    String[] all = new String[arguments.length + 1];
    System.arraycopy(arguments, 0, all, 1, arguments.length);
    all[0] = "--server.port=0";
    assertThatThrownBy(() -> new SpringApplicationBuilder(TowerLedgerApplication.class).run(all))
        .isNotNull();
  }

  /** What stands under the heading that an operator looks for. */
  private static String said(CapturedOutput output) {
    String log = output.getAll();
    assertThat(log).contains("APPLICATION FAILED TO START");
    String said = log.substring(log.lastIndexOf("APPLICATION FAILED TO START"));
    assertThat(said).contains("Action:").doesNotContain("\tat ");
    return said;
  }
}
