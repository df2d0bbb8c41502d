package towerledger.security;

import towerledger.ApplicationOnH2;

@ApplicationOnH2
class CanaryOnH2IT extends CanaryCases {}
