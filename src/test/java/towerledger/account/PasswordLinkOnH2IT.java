package towerledger.account;

import towerledger.ApplicationOnH2;

@ApplicationOnH2
class PasswordLinkOnH2IT extends PasswordLinkCases {}
