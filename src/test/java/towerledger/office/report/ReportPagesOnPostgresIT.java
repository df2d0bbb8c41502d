package towerledger.office.report;

import towerledger.ApplicationOnPostgres;

@ApplicationOnPostgres
class ReportPagesOnPostgresIT extends ReportPagesCases {}
