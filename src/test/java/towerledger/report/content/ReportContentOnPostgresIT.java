package towerledger.report.content;

import towerledger.ApplicationOnPostgres;

@ApplicationOnPostgres
class ReportContentOnPostgresIT extends ReportContentCases {}
