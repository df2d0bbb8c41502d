package towerledger.meter;

import towerledger.ApplicationOnPostgres;

@ApplicationOnPostgres
class MeterFactsOnPostgresIT extends MeterFactsCases {}
