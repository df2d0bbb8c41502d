package towerledger.ledger;

import towerledger.ApplicationOnPostgres;

@ApplicationOnPostgres
class NewestEndedOnPostgresIT extends NewestEndedCases {}
