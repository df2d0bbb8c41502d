package towerledger.balance.facts;

import java.time.Instant;
import java.util.OptionalDouble;

/**
 * A reading of the water supply's pressure, gauge.
 *
 * @param takenAt when it was read
 * @param supplyPascals before the regulator
 * @param valveInletPascals after the regulator, at the fill valve
 */
public record SupplyPressure(
    Instant takenAt, OptionalDouble supplyPascals, OptionalDouble valveInletPascals) {

  public SupplyPressure {
    Plausible.notNegative("supply pressure", supplyPascals, "Pa");
    Plausible.notNegative("pressure at the fill valve", valveInletPascals, "Pa");
  }
}
