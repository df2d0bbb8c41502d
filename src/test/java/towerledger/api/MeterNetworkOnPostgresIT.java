package towerledger.api;

import towerledger.ApplicationOnPostgres;

@ApplicationOnPostgres
class MeterNetworkOnPostgresIT extends MeterNetworkCases {}
