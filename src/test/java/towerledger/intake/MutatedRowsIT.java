package towerledger.intake;

import towerledger.ApplicationOnH2;

/** Some thousand spoiled rows in every build; the drill takes over a hundred thousand. */
@ApplicationOnH2
class MutatedRowsIT extends MutatedRowsCases {

  MutatedRowsIT() {
    super(400);
  }
}
