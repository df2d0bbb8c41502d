package towerledger.report.content;

import towerledger.ApplicationOnH2;

@ApplicationOnH2
class ReportContentOnH2IT extends ReportContentCases {}
