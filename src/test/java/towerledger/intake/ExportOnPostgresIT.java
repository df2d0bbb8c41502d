package towerledger.intake;

import towerledger.ApplicationOnPostgres;

@ApplicationOnPostgres
class ExportOnPostgresIT extends ExportCases {}
