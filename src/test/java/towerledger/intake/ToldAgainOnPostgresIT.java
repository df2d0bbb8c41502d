package towerledger.intake;

import towerledger.ApplicationOnPostgres;

@ApplicationOnPostgres
class ToldAgainOnPostgresIT extends ToldAgainCases {}
