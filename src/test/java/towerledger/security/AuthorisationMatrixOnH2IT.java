package towerledger.security;

import towerledger.ApplicationOnH2;

@ApplicationOnH2
class AuthorisationMatrixOnH2IT extends AuthorisationMatrixCases {}
