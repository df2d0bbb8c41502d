package towerledger;

import org.springframework.boot.SpringApplication;
import org.springframework.boot.autoconfigure.SpringBootApplication;

/**
 * The Tower Water Ledger: readings, tower data and tariffs in; who wastes water and what to do,
 * out.
 */
@SpringBootApplication
public class TowerLedgerApplication {

  public static void main(String[] args) {
    SpringApplication.run(TowerLedgerApplication.class, args);
  }
}
