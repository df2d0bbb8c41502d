package towerledger.account;

import towerledger.ApplicationOnPostgres;

@ApplicationOnPostgres
class HistoryOnlyGrowsOnPostgresIT extends HistoryOnlyGrowsCases {}
