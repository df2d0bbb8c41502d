package towerledger.office.report;

import towerledger.ApplicationOnH2;

@ApplicationOnH2
class ReportPagesOnH2IT extends ReportPagesCases {}
