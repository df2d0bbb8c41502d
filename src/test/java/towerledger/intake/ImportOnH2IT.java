package towerledger.intake;

import towerledger.ApplicationOnH2;

@ApplicationOnH2
class ImportOnH2IT extends ImportCases {}
