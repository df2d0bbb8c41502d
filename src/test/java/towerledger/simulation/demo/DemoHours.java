package towerledger.simulation.demo;

import java.time.LocalDate;
import java.util.Map;
import towerledger.simulation.EvidencePlan.IntervalPlan;
import towerledger.simulation.HourGrid;
import towerledger.simulation.Nuisances.LoadStep;

/**
 * Days of the sites as hours of the simulation.
 *
 * @param grids hours by site code
 * @param sites sites by code
 */
record DemoHours(Map<String, HourGrid> grids, Map<String, DemoSite> sites) {

  int hour(String site, String day, int hour) {
    return grids
        .get(site)
        .indexOf(LocalDate.parse(day).atTime(hour, 0).atZone(sites.get(site).zone()).toInstant());
  }

  LoadStep step(String site, String day, double factor) {
    return new LoadStep(hour(site, day, 6), factor);
  }

  IntervalPlan interval(String site, LocalDate from, LocalDate to, int minutes) {
    return new IntervalPlan(hour(site, from.toString(), 0), hour(site, to.toString(), 0), minutes);
  }
}
