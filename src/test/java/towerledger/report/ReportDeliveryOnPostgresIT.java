package towerledger.report;

import towerledger.ApplicationOnPostgres;

@ApplicationOnPostgres
class ReportDeliveryOnPostgresIT extends ReportDeliveryCases {}
