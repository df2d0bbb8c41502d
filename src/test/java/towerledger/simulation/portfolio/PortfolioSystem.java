package towerledger.simulation.portfolio;

import towerledger.simulation.Observations;
import towerledger.simulation.PlantSpec;

/**
 * One system of a large book.
 *
 * @param number from 0
 * @param spec the plant it is a copy of
 * @param seen what was observed there, meters called after the plant
 * @param scale its size against that plant
 */
record PortfolioSystem(int number, PlantSpec spec, Observations seen, double scale) {

  String code() {
    return "S%05d".formatted(number);
  }

  int site() {
    return number / PortfolioPlan.A_SITE;
  }

  int customer() {
    return site() / PortfolioPlan.A_CUSTOMER;
  }

  String meter() {
    return code() + "-MU";
  }

  /** A register of the copy: what was counted since the start, scaled. */
  double register(double original, double start) {
    return 1000 + Math.floor((original - start) * scale);
  }
}
