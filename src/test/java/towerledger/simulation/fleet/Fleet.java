package towerledger.simulation.fleet;

import java.util.List;
import java.util.stream.IntStream;
import towerledger.balance.Reconciler;
import towerledger.balance.ReconciliationPolicy;

/** Simulates and judges a fleet, plants in parallel. */
final class Fleet {

  private Fleet() {}

  static List<ScoredPlant> judge(FleetPlan plan) {
    FleetWeather weather = FleetWeather.of(plan);
    Reconciler reconciler = new Reconciler(ReconciliationPolicy.standard());
    return IntStream.range(0, plan.towers())
        .parallel()
        .mapToObj(i -> ScoredPlant.judge(FleetMember.of(plan, weather, i), reconciler))
        .toList();
  }
}
