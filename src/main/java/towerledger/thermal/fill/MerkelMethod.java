package towerledger.thermal.fill;

import towerledger.psychrometrics.HumidityRatio;
import towerledger.psychrometrics.MoistAir;
import towerledger.psychrometrics.SaturationPressure;

/**
 * Merkel's method: evaporation left out of the balance, Lewis factor of one, leaving air saturated.
 * Good for cold-water temperature, weak for evaporation; kept beside Poppe as a check.
 *
 * <p>Source: Merkel (1925), VDI-Forschungsheft 275; quadratures as named.
 */
public final class MerkelMethod {

  private static final double[] GAUSS_NODES = {
    -0.9602898564975363, -0.7966664774136267, -0.5255324099163290, -0.1834346424956498,
    0.1834346424956498, 0.5255324099163290, 0.7966664774136267, 0.9602898564975363
  };
  private static final double[] GAUSS_WEIGHTS = {
    0.1012285362903763, 0.2223810344533745, 0.3137066458778873, 0.3626837833783620,
    0.3626837833783620, 0.3137066458778873, 0.2223810344533745, 0.1012285362903763
  };
  private static final double[] CHEBYSHEV_NODES = {0.1, 0.4, 0.6, 0.9};

  private final AirWaterProperties properties;

  public MerkelMethod(AirWaterProperties properties) {
    this.properties = properties;
  }

  /** Merkel number ∫ cw dTw / (i_s(Tw) − i) by eight-point Gauss quadrature. */
  public double number(
      double hotC, double coldC, double waterToAir, double inletEnthalpy, double pressurePa) {
    double sum = 0;
    for (int k = 0; k < GAUSS_NODES.length; k++) {
      double share = (GAUSS_NODES[k] + 1) / 2;
      sum +=
          GAUSS_WEIGHTS[k]
              / 2
              * integrand(share, hotC, coldC, waterToAir, inletEnthalpy, pressurePa);
    }
    return sum * (hotC - coldC);
  }

  /** Merkel number by the four-point Chebyshev rule of the tower trade (at 0.1, 0.4, 0.6, 0.9). */
  public double numberByChebyshev(
      double hotC, double coldC, double waterToAir, double inletEnthalpy, double pressurePa) {
    double sum = 0;
    for (double share : CHEBYSHEV_NODES) {
      sum += integrand(share, hotC, coldC, waterToAir, inletEnthalpy, pressurePa) / 4;
    }
    return sum * (hotC - coldC);
  }

  private double integrand(
      double share,
      double hotC,
      double coldC,
      double waterToAir,
      double inletEnthalpy,
      double pressurePa) {
    double waterC = coldC + share * (hotC - coldC);
    double middleC = (hotC + coldC) / 2;
    double cw = properties.waterHeatCapacity(middleC);
    double airEnthalpy = inletEnthalpy + waterToAir * cw * (waterC - coldC);
    return cw / (saturatedEnthalpy(waterC, pressurePa) - airEnthalpy);
  }

  /** Enthalpy of air saturated at a water temperature, J/kg of dry air. */
  public double saturatedEnthalpy(double temperatureC, double pressurePa) {
    double ws = properties.saturatedHumidityRatio(temperatureC, pressurePa);
    return properties.dryAirHeatCapacity(temperatureC) * temperatureC
        + ws
            * (properties.latentHeatAtZeroC()
                + properties.vapourHeatCapacity(temperatureC) * temperatureC);
  }

  /**
   * Evaporation if the leaving air were just saturated, with the heat of the evaporated water in
   * the balance: i_out = i_in + (Q + E cw T_cold) / m_a, E = m_a (w_s(i_out) − w_in).
   *
   * @param heatW heat rejected, W
   * @param dryAirKgS dry air, kg/s
   * @return kg/s
   */
  public double saturatedExitEvaporation(
      double heatW, double coldC, double dryAirKgS, MoistAir inlet) {
    double evaporation = 0;
    for (int i = 0; i < 50; i++) {
      double out =
          inlet.enthalpyJPerKg()
              + (heatW + evaporation * properties.waterHeatCapacity(coldC) * coldC) / dryAirKgS;
      double t = saturationTemperatureC(out, inlet.pressurePa());
      double next =
          dryAirKgS
              * (properties.saturatedHumidityRatio(t, inlet.pressurePa()) - inlet.humidityRatio());
      if (Math.abs(next - evaporation) < 1e-12) {
        return next;
      }
      evaporation = next;
    }
    return evaporation;
  }

  /** Temperature of saturated air of an enthalpy, °C, by Newton's method. */
  public double saturationTemperatureC(double enthalpyJPerKg, double pressurePa) {
    double t = 20;
    for (int i = 0; i < 60; i++) {
      double ws = properties.saturatedHumidityRatio(t, pressurePa);
      double slopeWs =
          ws * (1 + ws / HumidityRatio.MOLAR_MASS_RATIO) * SaturationPressure.logSlopeOverWater(t);
      double slope =
          properties.dryAirHeatCapacity(t)
              + slopeWs * (properties.latentHeatAtZeroC() + properties.vapourHeatCapacity(t) * t)
              + ws * properties.vapourHeatCapacity(t);
      double step = (saturatedEnthalpy(t, pressurePa) - enthalpyJPerKg) / slope;
      t -= Math.max(-20, Math.min(20, step));
      if (Math.abs(step) < 1e-9) {
        break;
      }
    }
    return t;
  }
}
