package towerledger.office;

import towerledger.ApplicationOnPostgres;

@ApplicationOnPostgres
class RoundPagesOnPostgresIT extends RoundPagesCases {}
