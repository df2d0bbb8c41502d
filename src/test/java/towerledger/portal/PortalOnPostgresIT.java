package towerledger.portal;

import towerledger.ApplicationOnPostgres;

@ApplicationOnPostgres
class PortalOnPostgresIT extends PortalCases {}
