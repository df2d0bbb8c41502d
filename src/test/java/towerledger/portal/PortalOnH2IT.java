package towerledger.portal;

import towerledger.ApplicationOnH2;

@ApplicationOnH2
class PortalOnH2IT extends PortalCases {}
