package towerledger.office;

import towerledger.ApplicationOnPostgres;

@ApplicationOnPostgres
class MonthUnderWayOnPostgresIT extends MonthUnderWayCases {}
