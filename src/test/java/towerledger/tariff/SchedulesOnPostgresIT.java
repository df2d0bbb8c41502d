package towerledger.tariff;

import towerledger.ApplicationOnPostgres;

@ApplicationOnPostgres
class SchedulesOnPostgresIT extends SchedulesCases {}
