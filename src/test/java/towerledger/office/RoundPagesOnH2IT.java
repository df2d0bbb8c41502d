package towerledger.office;

import towerledger.ApplicationOnH2;

@ApplicationOnH2
class RoundPagesOnH2IT extends RoundPagesCases {}
