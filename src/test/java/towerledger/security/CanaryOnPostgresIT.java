package towerledger.security;

import towerledger.ApplicationOnPostgres;

@ApplicationOnPostgres
class CanaryOnPostgresIT extends CanaryCases {}
