package towerledger.office;

import towerledger.ApplicationOnH2;

@ApplicationOnH2
class MonthUnderWayOnH2IT extends MonthUnderWayCases {}
