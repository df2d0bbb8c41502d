package towerledger.thermal;

/**
 * A tower at work in one hour's steady state, all cells together.
 *
 * @param regime what the fans are doing
 * @param heatW heat rejected, W: water flow × heat capacity × (hot − cold)
 * @param evaporationKgS water evaporated, kg/s
 * @param hotWaterC water entering, °C
 * @param coldWaterC water leaving, °C
 * @param dryAirKgS dry air through the tower, kg/s
 * @param airFlowShare air over full air, 0 … 1
 * @param leavingAirC temperature of the leaving air, °C
 * @param leavingHumidityRatio water in the leaving air, vapour and fog, kg/kg of dry air
 * @param leavingFog whether the leaving air carries fog
 * @param latentShare latent heat of the evaporated water over the heat the air takes up (the heat
 *     rejected and what the makeup water brings in); above 1 where the air is cooled too
 */
public record OperatingPoint(
    ControlRegime regime,
    double heatW,
    double evaporationKgS,
    double hotWaterC,
    double coldWaterC,
    double dryAirKgS,
    double airFlowShare,
    double leavingAirC,
    double leavingHumidityRatio,
    boolean leavingFog,
    double latentShare) {

  /** Water evaporated, litres an hour. */
  public double evaporationLitresPerHour() {
    return evaporationKgS * 3600 / DesignPoint.WATER_KG_PER_LITRE;
  }
}
