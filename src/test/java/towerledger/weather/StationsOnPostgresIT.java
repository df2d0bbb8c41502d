package towerledger.weather;

import towerledger.ApplicationOnPostgres;

@ApplicationOnPostgres
class StationsOnPostgresIT extends StationsCases {}
