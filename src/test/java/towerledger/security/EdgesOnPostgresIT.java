package towerledger.security;

import towerledger.ApplicationOnPostgres;

@ApplicationOnPostgres
class EdgesOnPostgresIT extends EdgesCases {}
