package towerledger.office;

import towerledger.ApplicationOnH2;

@ApplicationOnH2
class FindingPagesOnH2IT extends FindingPagesCases {}
