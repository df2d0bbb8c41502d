package towerledger.intake;

import towerledger.ApplicationOnPostgres;

@ApplicationOnPostgres
class RefusedRowsOnPostgresIT extends RefusedRowsCases {}
