package towerledger.intake;

import towerledger.ApplicationOnPostgres;

@ApplicationOnPostgres
class ImportOnPostgresIT extends ImportCases {}
