package towerledger.report;

import towerledger.ApplicationOnH2;

@ApplicationOnH2
class RelayTroubleOnH2IT extends RelayTroubleCases {}
