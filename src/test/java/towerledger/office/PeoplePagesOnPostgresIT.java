package towerledger.office;

import towerledger.ApplicationOnPostgres;

@ApplicationOnPostgres
class PeoplePagesOnPostgresIT extends PeoplePagesCases {}
