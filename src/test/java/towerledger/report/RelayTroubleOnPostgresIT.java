package towerledger.report;

import towerledger.ApplicationOnPostgres;

@ApplicationOnPostgres
class RelayTroubleOnPostgresIT extends RelayTroubleCases {}
