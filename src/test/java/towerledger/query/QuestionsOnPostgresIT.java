package towerledger.query;

import towerledger.ApplicationOnPostgres;

@ApplicationOnPostgres
class QuestionsOnPostgresIT extends QuestionsCases {}
