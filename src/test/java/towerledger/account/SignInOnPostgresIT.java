package towerledger.account;

import towerledger.ApplicationOnPostgres;

@ApplicationOnPostgres
class SignInOnPostgresIT extends SignInCases {}
