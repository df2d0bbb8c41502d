package towerledger;

@ApplicationOnPostgres
class WholePathOnPostgresIT extends WholePathCases {}
