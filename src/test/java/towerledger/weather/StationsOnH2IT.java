package towerledger.weather;

import towerledger.ApplicationOnH2;

@ApplicationOnH2
class StationsOnH2IT extends StationsCases {}
