package towerledger;

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

  public static void main(String[] args) {
    SpringApplication.run(TowerLedgerApplication.class, args);
  }

  /** The one clock of the program; tests put their own in its place. */
  @Bean
  Clock clock() {
    return Clock.systemUTC();
  }
}
