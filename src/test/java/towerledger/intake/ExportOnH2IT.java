package towerledger.intake;

import towerledger.ApplicationOnH2;

@ApplicationOnH2
class ExportOnH2IT extends ExportCases {}
