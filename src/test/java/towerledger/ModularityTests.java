package towerledger;

import org.junit.jupiter.api.Test;
import org.springframework.modulith.core.ApplicationModules;

/** Module borders: who may use whom stands in each package-info; nobody may form a cycle. */
class ModularityTests {

  @Test
  void modulesKeepTheirBorders() {
    ApplicationModules.of(TowerLedgerApplication.class).verify();
  }
}
