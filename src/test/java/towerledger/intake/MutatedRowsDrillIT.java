package towerledger.intake;

import org.junit.jupiter.api.Tag;
import towerledger.ApplicationOnPostgres;

/** More than a hundred thousand spoiled rows. */
@Tag("drill")
@ApplicationOnPostgres
class MutatedRowsDrillIT extends MutatedRowsCases {

  MutatedRowsDrillIT() {
    super(6_250);
  }
}
