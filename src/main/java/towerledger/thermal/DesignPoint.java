package towerledger.thermal;

import towerledger.psychrometrics.MoistAir;
import towerledger.quantity.OutOfRangeException;
import towerledger.thermal.fill.AshraeProperties;

/**
 * The point a tower was rated for, all cells together.
 *
 * @param waterFlowKgS water over the fill, kg/s
 * @param hotWaterC water entering the tower, °C
 * @param coldWaterC water leaving the tower, °C, at least 0.5 K above the wet bulb
 * @param inletAir air entering the tower, at the pressure of the place
 * @param dryAirFlowKgS dry air through the tower with the fans at full speed, kg/s
 * @param airFlowKnown false when the air flow is the usual ratio instead of the maker's figure
 */
public record DesignPoint(
    double waterFlowKgS,
    double hotWaterC,
    double coldWaterC,
    MoistAir inletAir,
    double dryAirFlowKgS,
    boolean airFlowKnown) {

  /** Range and approach below which a design point says nothing of a fill, K. */
  private static final double LEAST_DIFFERENCE_K = 0.5;

  /** Water over dry air where the maker's air flow is not known. */
  public static final double USUAL_WATER_TO_AIR = 1.2;

  /** Kilograms in a litre of tower water (25 °C); tower water lies between 0.991 and 1.000. */
  public static final double WATER_KG_PER_LITRE = 0.997;

  public DesignPoint {
    OutOfRangeException.requirePositive(
        "design water flow", waterFlowKgS, "kg/s", "give the flow over all cells");
    OutOfRangeException.requirePositive(
        "design air flow", dryAirFlowKgS, "kg/s", "leave it out if it is not known");
    OutOfRangeException.requireWithin(
        "design hot water", hotWaterC, 5, 80, "°C", "check the value and its unit");
    if (!(hotWaterC - coldWaterC >= LEAST_DIFFERENCE_K)) {
      throw new OutOfRangeException(
          "design range",
          hotWaterC - coldWaterC,
          "K",
          "must be at least %s: hot water must be above cold water"
              .formatted(OutOfRangeException.withUnit(LEAST_DIFFERENCE_K, "K")),
          "check whether hot and cold water were exchanged");
    }
    double wetBulbC = inletAir.wetBulbC();
    if (!(coldWaterC - wetBulbC >= LEAST_DIFFERENCE_K)) {
      throw new OutOfRangeException(
          "design cold water",
          coldWaterC,
          "°C",
          "must be at least %s above the design wet bulb of %s"
              .formatted(
                  OutOfRangeException.withUnit(LEAST_DIFFERENCE_K, "K"),
                  OutOfRangeException.withUnit(wetBulbC, "°C")),
          "no tower cools below the wet bulb; check both");
    }
  }

  /** A design point whose air flow the maker states. */
  public static DesignPoint withAirFlow(
      double waterFlowKgS,
      double hotWaterC,
      double coldWaterC,
      MoistAir inletAir,
      double dryAirFlowKgS) {
    return new DesignPoint(waterFlowKgS, hotWaterC, coldWaterC, inletAir, dryAirFlowKgS, true);
  }

  /**
   * A design point without a stated air flow: {@value #USUAL_WATER_TO_AIR} kg of water per kg of
   * dry air (common practice, no source; towers lie between 0.9 and 1.5).
   */
  public static DesignPoint withUsualAirFlow(
      double waterFlowKgS, double hotWaterC, double coldWaterC, MoistAir inletAir) {
    return new DesignPoint(
        waterFlowKgS, hotWaterC, coldWaterC, inletAir, waterFlowKgS / USUAL_WATER_TO_AIR, false);
  }

  /** Hot less cold water, K. */
  public double rangeK() {
    return hotWaterC - coldWaterC;
  }

  /** Heat rejected at the design point, W. */
  public double heatW() {
    return waterFlowKgS * AshraeProperties.WATER_HEAT_CAPACITY * rangeK();
  }

  /** Water over dry air, kg/kg. */
  public double waterToAir() {
    return waterFlowKgS / dryAirFlowKgS;
  }
}
