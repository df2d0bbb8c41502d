package towerledger.report;

import towerledger.ApplicationOnH2;

@ApplicationOnH2
class ReportDeliveryOnH2IT extends ReportDeliveryCases {}
