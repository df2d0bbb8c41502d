package towerledger.intake;

import towerledger.ApplicationOnH2;

@ApplicationOnH2
class ToldAgainOnH2IT extends ToldAgainCases {}
