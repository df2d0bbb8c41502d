package towerledger;

@ApplicationOnH2
class WholePathOnH2IT extends WholePathCases {}
