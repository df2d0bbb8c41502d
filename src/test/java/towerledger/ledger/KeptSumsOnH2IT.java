package towerledger.ledger;

import towerledger.ApplicationOnH2;

@ApplicationOnH2
class KeptSumsOnH2IT extends KeptSumsCases {

  @Override
  String prefix() {
    return "SUMSH";
  }
}
