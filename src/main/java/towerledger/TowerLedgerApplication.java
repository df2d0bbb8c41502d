package towerledger;

import java.nio.file.Path;
import java.time.Clock;
import org.springframework.boot.SpringApplication;
import org.springframework.boot.autoconfigure.SpringBootApplication;
import org.springframework.context.annotation.Bean;

/**
 * The Tower Water Ledger: readings, tower data and tariffs in; who wastes water and what to do,
 * out.
 */
@SpringBootApplication
public class TowerLedgerApplication {

  private static final String DATA = "TOWERLEDGER_DATA";

  public static void main(String[] args) {
    String folder = System.getProperty(DATA, System.getenv(DATA));
    if (folder != null && !folder.isBlank()) {
      System.setProperty(DATA, wholePath(folder));
    }
    SpringApplication.run(TowerLedgerApplication.class, args);
  }

  /** H2 refuses the path of a file that begins with a bare name, as people write folders. */
  static String wholePath(String folder) {
    return Path.of(folder).toAbsolutePath().normalize().toString();
  }

  /** The one clock of the program; tests put their own in its place. */
  @Bean
  Clock clock() {
    return Clock.systemUTC();
  }
}
