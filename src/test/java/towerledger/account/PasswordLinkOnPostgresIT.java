package towerledger.account;

import towerledger.ApplicationOnPostgres;

@ApplicationOnPostgres
class PasswordLinkOnPostgresIT extends PasswordLinkCases {}
