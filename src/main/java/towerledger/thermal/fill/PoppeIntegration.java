package towerledger.thermal.fill;

import towerledger.psychrometrics.SaturationPressure;

/**
 * The Poppe method: heat and mass transfer in a counter-flow fill without Merkel's simplifications,
 * for unsaturated and for supersaturated (foggy) air, with the Lewis factor of Bošnjaković.
 *
 * <p>Sources: Poppe and Rögener (1991), VDI-Wärmeatlas, section Mi; in the form of Kloppers and
 * Kröger (2005), "A critical investigation into the heat and mass transfer analysis of counterflow
 * wet-cooling towers", Int. J. Heat Mass Transfer 48, 765–777. The numbers of the equations are
 * theirs, quoted from memory.
 *
 * <p>The integration climbs with the water temperature from the cold to the hot end by the classic
 * fourth-order Runge–Kutta method. An object serves one thread; it holds the result of its last run
 * and is meant to be used again without new allocations.
 */
public final class PoppeIntegration {

  /** 0.865 to the power of two thirds, in the Lewis factor of Bošnjaković (1965). */
  private static final double LEWIS_BASE = Math.pow(0.865, 2.0 / 3);

  private static final double MOLAR_MASS_RATIO = 0.622;

  private final AirWaterProperties properties;
  private final int steps;

  /** Below this share of saturation no fog sets in within one step. */
  private static final double FAR_FROM_FOG = 0.7;

  private double pressurePa;
  private boolean skipFogCheck;
  private double waterOutToAir;
  private double inletHumidity;
  private double guessAirC;

  private double slopeHumidity;
  private double slopeEnthalpy;
  private double slopeMerkel;

  private double merkelNumber;
  private double humidity;
  private double enthalpy;
  private double airC;
  private boolean supersaturated;
  private double reachedC;

  /**
   * @param properties fluid properties
   * @param steps Runge–Kutta steps over the range; 5 suffice for 1e-6 at usual flows
   */
  public PoppeIntegration(AirWaterProperties properties, int steps) {
    this.properties = properties;
    this.steps = steps;
  }

  /**
   * Integrates until the humidity of the leaving air agrees with the water that left.
   *
   * @param hotC water entering, °C
   * @param coldC water leaving, °C
   * @param waterToAir water entering over dry air, kg/kg
   * @param inletHumidityRatio entering air, kg/kg
   * @param inletEnthalpy entering air, J/kg of dry air
   * @param pressurePa Pa
   * @return false when the driving force vanishes before the hot end: no fill, however large, does
   *     this with so little air; {@link #reachedC()} tells where
   */
  public boolean run(
      double hotC,
      double coldC,
      double waterToAir,
      double inletHumidityRatio,
      double inletEnthalpy,
      double pressurePa) {
    double gain = 0.01 * waterToAir;
    double change = 0;
    for (int i = 0; i < 20; i++) {
      if (!pass(hotC, coldC, waterToAir, inletHumidityRatio, inletEnthalpy, pressurePa, gain)) {
        return false;
      }
      double step = humidity - inletHumidityRatio - gain;
      if (Math.abs(step) < 1e-9) {
        break;
      }
      // near a pinch of the driving force the guesses swing: they are met half-way
      change = step * change < 0 && Math.abs(step) > 0.3 * Math.abs(change) ? step / 2 : step;
      gain += change;
    }
    return true;
  }

  /**
   * One integration with a guessed gain of humidity; {@link #humidity()} gives the better guess.
   *
   * @param humidityGain guess of the humidity the air takes up, kg/kg
   * @return false when the driving force vanishes before the hot end
   */
  public boolean pass(
      double hotC,
      double coldC,
      double waterToAir,
      double inletHumidityRatio,
      double inletEnthalpy,
      double pressurePa,
      double humidityGain) {
    this.pressurePa = pressurePa;
    this.inletHumidity = inletHumidityRatio;
    this.waterOutToAir = waterToAir - humidityGain;
    this.guessAirC = coldC;
    double h = (hotC - coldC) / steps;
    double w = inletHumidityRatio;
    double e = inletEnthalpy;
    double me = 0;
    double waterC = coldC;
    for (int i = 0; i < steps; i++) {
      skipFogCheck = false;
      if (!slopes(waterC, w, e)) {
        return stopAt(waterC);
      }
      skipFogCheck = !supersaturated && w < FAR_FROM_FOG * airSaturated;
      double w1 = slopeHumidity;
      double e1 = slopeEnthalpy;
      double m1 = slopeMerkel;
      if (!slopes(waterC + h / 2, w + h / 2 * w1, e + h / 2 * e1)) {
        return stopAt(waterC);
      }
      double w2 = slopeHumidity;
      double e2 = slopeEnthalpy;
      double m2 = slopeMerkel;
      if (!slopes(waterC + h / 2, w + h / 2 * w2, e + h / 2 * e2)) {
        return stopAt(waterC);
      }
      double w3 = slopeHumidity;
      double e3 = slopeEnthalpy;
      double m3 = slopeMerkel;
      if (!slopes(waterC + h, w + h * w3, e + h * e3)) {
        return stopAt(waterC);
      }
      w += h / 6 * (w1 + 2 * w2 + 2 * w3 + slopeHumidity);
      e += h / 6 * (e1 + 2 * e2 + 2 * e3 + slopeEnthalpy);
      me += h / 6 * (m1 + 2 * m2 + 2 * m3 + slopeMerkel);
      waterC = coldC + (i + 1) * h;
    }
    this.humidity = w;
    this.enthalpy = e;
    this.merkelNumber = me;
    this.reachedC = hotC;
    skipFogCheck = false;
    settleAir(w, e);
    return true;
  }

  private boolean stopAt(double waterC) {
    skipFogCheck = false;
    reachedC = waterC;
    return false;
  }

  /**
   * Right-hand sides at one water temperature: Kloppers and Kröger (2005), equations 7, 8 and 10
   * for unsaturated air, 20, 21 and 23 for supersaturated air.
   *
   * @return false when the driving force is not positive
   */
  private boolean slopes(double waterC, double w, double e) {
    double cw = properties.waterHeatCapacity(waterC);
    double cpv = properties.vapourHeatCapacity(waterC);
    double vapourEnthalpy = properties.latentHeatAtZeroC() + cpv * waterC;
    double ws = properties.saturatedHumidityRatio(waterC, pressurePa);
    double saturatedEnthalpy = properties.dryAirHeatCapacity(waterC) * waterC + ws * vapourEnthalpy;
    double waterToAir = waterOutToAir + (w - inletHumidity);
    double x = saturatedEnthalpy - e;
    settleAir(w, e);
    double held = supersaturated ? airSaturated : w;
    double lewis = lewisFactor(ws, held);
    double drivingHumidity = ws - held;
    double fogHeat = (w - held) * cw * waterC;
    double delta =
        x + (lewis - 1) * (x - drivingHumidity * vapourEnthalpy + fogHeat) - (ws - w) * cw * waterC;
    driving = delta;
    if (!(delta > 0)) {
      return false;
    }
    slopeMerkel = cw / delta;
    slopeHumidity = slopeMerkel * waterToAir * drivingHumidity;
    slopeEnthalpy = cw * waterToAir * (1 + drivingHumidity * cw * waterC / delta);
    return true;
  }

  /**
   * The temperature that water takes in air of a state: where the driving force vanishes. With a
   * Lewis factor below one it lies up to half a kelvin below the thermodynamic wet bulb in dry air.
   *
   * @param startC a first guess, the wet bulb, °C
   * @return °C
   */
  public double coldestWaterC(
      double humidityRatio, double enthalpyJPerKg, double atPressurePa, double startC) {
    pressurePa = atPressurePa;
    waterOutToAir = 1;
    inletHumidity = humidityRatio;
    guessAirC = startC;
    double high = startC + 0.02;
    double atHigh = drivingForce(high, humidityRatio, enthalpyJPerKg);
    double low = startC - 0.05;
    double atLow = drivingForce(low, humidityRatio, enthalpyJPerKg);
    for (int i = 0; i < 30; i++) {
      double next = high - atHigh * (high - low) / (atHigh - atLow);
      low = high;
      atLow = atHigh;
      high = next;
      if (Math.abs(high - low) < 1e-7) {
        break;
      }
      atHigh = drivingForce(high, humidityRatio, enthalpyJPerKg);
    }
    return high;
  }

  private double drivingForce(double waterC, double w, double e) {
    slopes(waterC, w, e);
    return driving;
  }

  private double airSaturated;
  private double driving;

  /** Temperature of the air, and whether it carries fog. */
  private void settleAir(double w, double e) {
    if (skipFogCheck) {
      return;
    }
    double latent = properties.latentHeatAtZeroC();
    double cpa = properties.dryAirHeatCapacity(guessAirC);
    double cpv = properties.vapourHeatCapacity(guessAirC);
    double clear = (e - w * latent) / (cpa + w * cpv);
    airSaturated = properties.saturatedHumidityRatio(clear, pressurePa);
    supersaturated = w > airSaturated;
    if (!supersaturated) {
      airC = clear;
      guessAirC = clear;
      return;
    }
    // i = cpa·ta + wsa (ifg + cpv·ta) + (w − wsa) cw·ta, solved for ta by Newton's method
    double ta = Math.max(guessAirC, clear);
    for (int i = 0; i < 30; i++) {
      double wsa = properties.saturatedHumidityRatio(ta, pressurePa);
      cpa = properties.dryAirHeatCapacity(ta);
      cpv = properties.vapourHeatCapacity(ta);
      double cw = properties.waterHeatCapacity(ta);
      double excess = cpa * ta + wsa * (latent + cpv * ta) + (w - wsa) * cw * ta - e;
      double slopeWsa =
          wsa * (1 + wsa / MOLAR_MASS_RATIO) * SaturationPressure.logSlopeOverWater(ta);
      double slope = cpa + wsa * cpv + (w - wsa) * cw + slopeWsa * (latent + (cpv - cw) * ta);
      double step = excess / slope;
      ta -= step;
      airSaturated = wsa - slopeWsa * step;
      // the step after one this small would be below 1e-6 K
      if (Math.abs(step) < 4e-3) {
        break;
      }
    }
    airC = ta;
    guessAirC = ta;
  }

  /**
   * Temperature of foggy or clear air of a humidity and an enthalpy, as the method sees it.
   *
   * @return °C
   */
  public double airTemperatureC(double humidityRatio, double enthalpyJPerKg, double atPressurePa) {
    this.pressurePa = atPressurePa;
    for (int i = 0; i < 4; i++) {
      settleAir(humidityRatio, enthalpyJPerKg);
    }
    return airC;
  }

  /**
   * Lewis factor after Bošnjaković (1965): Le = 0.865^(2/3) (r − 1) / ln r with r = (ws + 0.622) /
   * (w + 0.622).
   */
  static double lewisFactor(double saturated, double humidity) {
    double z = (saturated - humidity) / (humidity + MOLAR_MASS_RATIO);
    // z / ln(1 + z) as a series where that is exact to 1e-9
    double ratio =
        Math.abs(z) < 0.05
            ? 1 + z * (1.0 / 2 + z * (-1.0 / 12 + z * (1.0 / 24 + z * (-19.0 / 720 + z * 3 / 160))))
            : z / Math.log1p(z);
    return LEWIS_BASE * ratio;
  }

  /** Transfer the run needed, ∫ cw dTw / Δ. */
  public double merkelNumber() {
    return merkelNumber;
  }

  /** Water in the leaving air, vapour and fog, kg/kg of dry air. */
  public double humidity() {
    return humidity;
  }

  /** Enthalpy of the leaving air, J/kg of dry air. */
  public double enthalpy() {
    return enthalpy;
  }

  /** Temperature of the leaving air, °C. */
  public double airC() {
    return airC;
  }

  /** Whether the leaving air carries fog. */
  public boolean supersaturated() {
    return supersaturated;
  }

  /** Water temperature up to which the last run came, °C. */
  public double reachedC() {
    return reachedC;
  }
}
