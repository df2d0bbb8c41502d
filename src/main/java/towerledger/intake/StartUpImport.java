package towerledger.intake;

import java.io.IOException;
import java.nio.file.Path;
import org.slf4j.Logger;
import org.slf4j.LoggerFactory;
import org.springframework.beans.factory.annotation.Value;
import org.springframework.boot.ApplicationArguments;
import org.springframework.boot.ApplicationRunner;
import org.springframework.stereotype.Component;

/**
 * Imports the bundle that {@code TOWERLEDGER_IMPORT} names when the program starts. A bundle that
 * cannot be taken is told in the log and does not keep the program from starting.
 */
@Component
class StartUpImport implements ApplicationRunner {

  private static final Logger LOG = LoggerFactory.getLogger(StartUpImport.class);

  private final Importer importer;
  private final ImportTurn turn;
  private final String bundle;

  StartUpImport(
      Importer importer, ImportTurn turn, @Value("${towerledger.import:}") String bundle) {
    this.importer = importer;
    this.turn = turn;
    this.bundle = bundle;
  }

  @Override
  public void run(ApplicationArguments arguments) {
    if (!bundle.isBlank()) {
      turn.first(this::take);
    }
  }

  private void take() {
    try (Upload upload = Upload.of(Path.of(bundle))) {
      ImportReceipt receipt = importer.take(upload, ImportRequest.startUp(bundle));
      for (FileReceipt file : receipt.files()) {
        LOG.info(
            "{}: {} rows, {} added, {} changed, {} unchanged, {} in quarantine",
            file.file(),
            file.rows(),
            file.added(),
            file.changed(),
            file.unchanged(),
            file.quarantined());
        file.reasons().forEach(reason -> LOG.warn("{}: {}", file.file(), reason));
      }
    } catch (UploadRefused e) {
      LOG.error("The import at start was refused: {}", e.getMessage());
    } catch (IOException e) {
      LOG.error("The import at start could not be closed properly", e);
    }
  }
}
