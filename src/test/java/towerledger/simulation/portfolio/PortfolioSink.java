package towerledger.simulation.portfolio;

import towerledger.simulation.Climate;
import towerledger.simulation.SimulatedWeather;

/** Where a large book goes. */
interface PortfolioSink extends AutoCloseable {

  void station(Climate climate, SimulatedWeather weather, int firstHour);

  void customer(int number);

  void site(int number, int customer, Climate climate);

  void system(PortfolioSystem system);

  @Override
  void close();
}
