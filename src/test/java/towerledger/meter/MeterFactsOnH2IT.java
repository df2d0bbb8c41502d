package towerledger.meter;

import towerledger.ApplicationOnH2;

@ApplicationOnH2
class MeterFactsOnH2IT extends MeterFactsCases {}
