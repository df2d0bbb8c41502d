package towerledger.intake;

import towerledger.ApplicationOnH2;

@ApplicationOnH2
class OpenFormatOnH2IT extends OpenFormatCases {}
