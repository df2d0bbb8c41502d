package towerledger.ledger;

import towerledger.ApplicationOnPostgres;

@ApplicationOnPostgres
class KeptSumsOnPostgresIT extends KeptSumsCases {

  @Override
  String prefix() {
    return "SUMSP";
  }
}
