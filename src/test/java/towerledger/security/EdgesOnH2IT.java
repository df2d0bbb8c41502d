package towerledger.security;

import towerledger.ApplicationOnH2;

@ApplicationOnH2
class EdgesOnH2IT extends EdgesCases {}
