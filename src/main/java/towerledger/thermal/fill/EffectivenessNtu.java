package towerledger.thermal.fill;

/**
 * The effectiveness–NTU method for a counter-flow tower: saturation enthalpy taken as linear over
 * the range, with Berman's correction for its curvature.
 *
 * <p>Source: Jaber and Webb (1989), "Design of cooling towers by the effectiveness-NTU method", J.
 * Heat Transfer 111, 837–843; from memory.
 */
public final class EffectivenessNtu {

  private final MerkelMethod merkel;
  private final AirWaterProperties properties;

  public EffectivenessNtu(AirWaterProperties properties) {
    this.properties = properties;
    this.merkel = new MerkelMethod(properties);
  }

  /**
   * Heat a fill takes from water between two temperatures, per kg/s of water.
   *
   * @param hotC water entering, °C
   * @param coldC water leaving, °C
   * @param waterToAir water over dry air, kg/kg
   * @param merkelNumber transfer of the fill, Merkel's definition
   * @param inletEnthalpy entering air, J/kg
   * @return J per kg of water
   */
  public double heatPerWater(
      double hotC,
      double coldC,
      double waterToAir,
      double merkelNumber,
      double inletEnthalpy,
      double pressurePa) {
    double cw = properties.waterHeatCapacity((hotC + coldC) / 2);
    double hot = merkel.saturatedEnthalpy(hotC, pressurePa);
    double cold = merkel.saturatedEnthalpy(coldC, pressurePa);
    double middle = merkel.saturatedEnthalpy((hotC + coldC) / 2, pressurePa);
    double slope = (hot - cold) / (hotC - coldC);
    double waterCapacity = cw / slope; // per kg of water, in kg of air
    double airCapacity = 1 / waterToAir;
    double least = Math.min(waterCapacity, airCapacity);
    double ratio = least / Math.max(waterCapacity, airCapacity);
    double ntu = merkelNumber / least;
    double berman = (cold + hot - 2 * middle) / 4;
    return effectiveness(ntu, ratio) * least * (hot - berman - inletEnthalpy);
  }

  /** Counter-flow effectiveness; the limit NTU/(1 + NTU) at equal capacities. */
  static double effectiveness(double ntu, double ratio) {
    if (Math.abs(1 - ratio) < 1e-9) {
      return ntu / (1 + ntu);
    }
    double e = Math.exp(-ntu * (1 - ratio));
    return (1 - e) / (1 - ratio * e);
  }

  /**
   * Cold water a fill makes, found so that heat and range agree.
   *
   * @return °C
   */
  public double coldWaterC(
      double rangeK,
      double waterToAir,
      double merkelNumber,
      double inletEnthalpy,
      double pressurePa) {
    double lo = merkel.saturationTemperatureC(inletEnthalpy, pressurePa);
    double hi = lo + 60;
    for (int i = 0; i < 100; i++) {
      double middle = (lo + hi) / 2;
      double heat =
          heatPerWater(
              middle + rangeK, middle, waterToAir, merkelNumber, inletEnthalpy, pressurePa);
      double needed = properties.waterHeatCapacity(middle) * rangeK;
      if (heat < needed) {
        lo = middle;
      } else {
        hi = middle;
      }
    }
    return (lo + hi) / 2;
  }
}
