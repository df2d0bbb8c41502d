package towerledger.balance;

import java.util.Map;
import java.util.OptionalDouble;

/**
 * What the office sets: how much must be wrong before a month is flagged, and how often each cause
 * happens. All of it is assumption, open to view and change.
 *
 * @param leastShare least loss worth a flag as a fraction of the month's makeup (default 0.03)
 * @param leastLitres least loss worth a flag in litres, from the office's least money; a month is
 *     worth a flag when it exceeds the share or this volume
 * @param faultsPerSystemYear how often each cause begins, per sound system and year
 */
public record ReconciliationPolicy(
    double leastShare, OptionalDouble leastLitres, Map<Cause, Double> faultsPerSystemYear) {

  public ReconciliationPolicy {
    if (!(leastShare >= 0 && leastShare < 1)) {
      throw new IllegalArgumentException(
          "least share of %s lies outside 0 to 1; 0.03 means 3 %% of makeup".formatted(leastShare));
    }
    faultsPerSystemYear = Map.copyOf(faultsPerSystemYear);
  }

  /** How often a cause begins, per sound system and year; 0 for one that never does. */
  double yearly(Cause cause) {
    return faultsPerSystemYear.getOrDefault(cause, 0.0);
  }

  /** The defaults: 3 % of makeup, no least volume, prior frequencies by judgement. */
  public static ReconciliationPolicy standard() {
    return new ReconciliationPolicy(
        0.03,
        OptionalDouble.empty(),
        Map.ofEntries(
            Map.entry(Cause.FILL_VALVE_LEAKING_BY, 0.05),
            Map.entry(Cause.FILL_VALVE_STUCK_OPEN, 0.02),
            Map.entry(Cause.OVERFLOW_ON_SHUTDOWN, 0.03),
            Map.entry(Cause.LEVEL_SET_HIGH, 0.04),
            Map.entry(Cause.BLOWDOWN_STUCK_OPEN, 0.04),
            Map.entry(Cause.LOW_CYCLES, 0.05),
            Map.entry(Cause.MAKEUP_LINE_LEAK, 0.02),
            Map.entry(Cause.BASIN_LEAK, 0.04),
            Map.entry(Cause.DRIFT_EXCESS, 0.02),
            Map.entry(Cause.OTHER_USE, 0.02),
            Map.entry(Cause.MAKEUP_METER_ERROR, 0.03),
            Map.entry(Cause.BLOWDOWN_METER_ERROR, 0.02),
            Map.entry(Cause.CONDUCTIVITY_ERROR, 0.03),
            Map.entry(Cause.HEAT_LOAD_ERROR, 0.05),
            Map.entry(Cause.FILL_VALVE_SHUT, 0.01)));
  }
}
