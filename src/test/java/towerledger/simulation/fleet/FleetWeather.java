package towerledger.simulation.fleet;

import java.time.LocalDate;
import towerledger.balance.facts.WeatherHours;
import towerledger.quantity.Units;
import towerledger.simulation.Chance;
import towerledger.simulation.HourGrid;
import towerledger.simulation.LocalHours;
import towerledger.simulation.SimulatedWeather;

/** One station for a whole fleet: as it was, and as it was recorded to a tenth of a degree. */
record FleetWeather(SimulatedWeather truth, WeatherHours recorded) {

  private static final int RUN_IN_DAYS = 45;

  static FleetWeather of(FleetPlan plan) {
    HourGrid grid = HourGrid.of(FleetPlan.FROM, FleetPlan.TO, RUN_IN_DAYS, plan.zone());
    SimulatedWeather truth =
        SimulatedWeather.of(
            plan.climate(),
            plan.climate().elevationM(),
            new LocalHours(grid, plan.zone()),
            new Chance(plan.seed()).branch("weather"));
    return new FleetWeather(truth, recorded(truth, FleetPlan.FROM));
  }

  /** What the station wrote down from a day on. */
  static WeatherHours recorded(SimulatedWeather truth, LocalDate from) {
    HourGrid grid = truth.hours().grid();
    int first = grid.indexOf(from.atStartOfDay(truth.hours().zone()).toInstant());
    int n = grid.hours() - first;
    float[] dry = new float[n];
    float[] wet = new float[n];
    float[] pressure = new float[n];
    for (int i = 0; i < n; i++) {
      double dryF = Math.round(Units.fahrenheit(truth.dryBulbC(first + i)) * 10) / 10.0;
      double wetF = Math.round(Units.fahrenheit(truth.wetBulbC(first + i)) * 10) / 10.0;
      dry[i] = (float) Units.celsius(dryF);
      wet[i] = (float) Math.min(Units.celsius(dryF), Units.celsius(wetF));
      pressure[i] = (float) truth.pressurePa(first + i);
    }
    return new WeatherHours(grid.at(first), dry, wet, pressure, new boolean[n]);
  }
}
