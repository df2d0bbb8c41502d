package towerledger.thermal;

import towerledger.psychrometrics.MoistAir;

/** What lies between water and air in a tower: a fill, or a wetted coil. */
sealed interface HeatExchange permits OpenFill, CoilCooler {

  /**
   * The state with a fixed share of full air.
   *
   * @param heatW heat rejected, W
   * @param waterKgS water in circulation, kg/s
   * @param inService share of the cells in service, 0 … 1
   * @param airShare air over full air of the cells in service
   * @param regime what to call the state
   */
  OperatingPoint fixedAir(
      double heatW,
      double waterKgS,
      double inService,
      MoistAir air,
      double airShare,
      ControlRegime regime);

  /** The state in which the fans hold a set-point as well as they can. */
  OperatingPoint controlled(
      double heatW,
      double waterKgS,
      double inService,
      MoistAir air,
      double setPointC,
      FanControl fans);
}
