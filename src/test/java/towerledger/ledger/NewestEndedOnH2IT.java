package towerledger.ledger;

import towerledger.ApplicationOnH2;

@ApplicationOnH2
class NewestEndedOnH2IT extends NewestEndedCases {}
