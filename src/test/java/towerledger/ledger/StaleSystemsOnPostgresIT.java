package towerledger.ledger;

import towerledger.ApplicationOnPostgres;

@ApplicationOnPostgres
class StaleSystemsOnPostgresIT extends StaleSystemsCases {}
