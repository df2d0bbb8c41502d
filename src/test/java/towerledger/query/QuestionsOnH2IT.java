package towerledger.query;

import towerledger.ApplicationOnH2;

@ApplicationOnH2
class QuestionsOnH2IT extends QuestionsCases {}
