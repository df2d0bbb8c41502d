package towerledger.account;

import towerledger.ApplicationOnH2;

@ApplicationOnH2
class SignInOnH2IT extends SignInCases {}
