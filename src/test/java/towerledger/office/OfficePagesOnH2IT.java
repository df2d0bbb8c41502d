package towerledger.office;

import towerledger.ApplicationOnH2;

@ApplicationOnH2
class OfficePagesOnH2IT extends OfficePagesCases {}
