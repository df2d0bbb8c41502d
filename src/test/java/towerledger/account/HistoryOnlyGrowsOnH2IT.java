package towerledger.account;

import towerledger.ApplicationOnH2;

@ApplicationOnH2
class HistoryOnlyGrowsOnH2IT extends HistoryOnlyGrowsCases {}
