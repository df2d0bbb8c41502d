package towerledger.office;

import towerledger.ApplicationOnH2;

@ApplicationOnH2
class PeoplePagesOnH2IT extends PeoplePagesCases {}
