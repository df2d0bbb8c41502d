package towerledger.ledger;

import towerledger.ApplicationOnH2;

@ApplicationOnH2
class MonthEndsOnH2IT extends MonthEndsCases {}
