package towerledger.security;

import towerledger.ApplicationOnPostgres;

@ApplicationOnPostgres
class AuthorisationMatrixOnPostgresIT extends AuthorisationMatrixCases {}
