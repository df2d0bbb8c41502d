package towerledger.office;

import towerledger.ApplicationOnPostgres;

@ApplicationOnPostgres
class FindingPagesOnPostgresIT extends FindingPagesCases {}
