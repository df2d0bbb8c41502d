package towerledger.account;

import towerledger.ApplicationOnH2;

@ApplicationOnH2
class LetterTroubleOnH2IT extends LetterTroubleCases {}
