package towerledger.ledger;

import towerledger.ApplicationOnH2;

@ApplicationOnH2
class StaleSystemsOnH2IT extends StaleSystemsCases {}
