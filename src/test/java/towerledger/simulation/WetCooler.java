package towerledger.simulation;

/** Anything that sheds heat by evaporating water; holds a warm start, so one per simulated run. */
interface WetCooler {

  /**
   * One hour in steady state.
   *
   * @param heatW heat to shed
   * @param inDryBulbC air at the intake
   * @param inRatio its humidity ratio
   * @param pressurePa station pressure
   * @param setpointC cold water wanted; warmer when the fan cannot
   */
  void settle(double heatW, double inDryBulbC, double inRatio, double pressurePa, double setpointC);

  /** Water evaporated in the settled hour, kg/s. */
  double evaporationKgS();

  /** Cold water of the settled hour. */
  double coldC();

  /** Hot water of the settled hour. */
  double hotC();

  /** Air moved as a part of design. */
  double airPart();

  /** Water in circulation, kg/s. */
  double circulationKgS();
}
