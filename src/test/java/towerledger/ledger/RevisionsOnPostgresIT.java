package towerledger.ledger;

import towerledger.ApplicationOnPostgres;

@ApplicationOnPostgres
class RevisionsOnPostgresIT extends RevisionsCases {}
