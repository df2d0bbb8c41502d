package towerledger.account;

import towerledger.ApplicationOnPostgres;

@ApplicationOnPostgres
class LetterTroubleOnPostgresIT extends LetterTroubleCases {}
