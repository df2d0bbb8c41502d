package towerledger.thermal;

/**
 * How air meets the falling water.
 *
 * <p>A cross-flow tower is computed as the counter-flow tower that meets the same design point. Its
 * evaporation per heat hardly differs, because the heat balance fixes it; its cold water at full
 * air away from the design point may be off by some tenths of a kelvin.
 */
public enum FlowArrangement {
  COUNTERFLOW,
  CROSSFLOW
}
