package towerledger.thermal.fill;

/** Properties of water, vapour and dry air that a transfer calculation needs. */
public interface AirWaterProperties {

  /**
   * Humidity ratio of air saturated over liquid water; below 0 °C over supercooled drops, since
   * neither the film nor the fog of a working tower is ice.
   *
   * @param temperatureC °C
   * @param pressurePa Pa
   * @return kg/kg of dry air
   */
  double saturatedHumidityRatio(double temperatureC, double pressurePa);

  /** Mean heat capacity of dry air between 0 °C and a temperature, J/(kg·K). */
  double dryAirHeatCapacity(double temperatureC);

  /** Mean heat capacity of vapour between 0 °C and a temperature, J/(kg·K). */
  double vapourHeatCapacity(double temperatureC);

  /** Mean heat capacity of water between 0 °C and a temperature, J/(kg·K). */
  double waterHeatCapacity(double temperatureC);

  /** Latent heat of evaporation at 0 °C, J/kg. */
  double latentHeatAtZeroC();
}
