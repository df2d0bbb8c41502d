package towerledger.api;

import towerledger.ApplicationOnH2;

@ApplicationOnH2
class MeterNetworkOnH2IT extends MeterNetworkCases {}
