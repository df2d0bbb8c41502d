package towerledger.ledger;

import towerledger.ApplicationOnH2;

@ApplicationOnH2
class RevisionsOnH2IT extends RevisionsCases {}
