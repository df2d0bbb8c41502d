package towerledger.ledger;

import towerledger.ApplicationOnPostgres;

@ApplicationOnPostgres
class MonthEndsOnPostgresIT extends MonthEndsCases {}
