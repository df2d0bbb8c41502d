package towerledger.office;

import towerledger.ApplicationOnPostgres;

@ApplicationOnPostgres
class OfficePagesOnPostgresIT extends OfficePagesCases {}
