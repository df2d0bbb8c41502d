package towerledger.intake;

import towerledger.ApplicationOnH2;

@ApplicationOnH2
class RefusedRowsOnH2IT extends RefusedRowsCases {}
