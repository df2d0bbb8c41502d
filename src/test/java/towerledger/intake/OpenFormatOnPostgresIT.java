package towerledger.intake;

import towerledger.ApplicationOnPostgres;

@ApplicationOnPostgres
class OpenFormatOnPostgresIT extends OpenFormatCases {}
