package towerledger.tariff;

import towerledger.ApplicationOnH2;

@ApplicationOnH2
class SchedulesOnH2IT extends SchedulesCases {}
