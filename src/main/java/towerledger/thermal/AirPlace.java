package towerledger.thermal;

import towerledger.psychrometrics.HumidityRatio;
import towerledger.psychrometrics.SaturationPressure;
import towerledger.thermal.fill.TabulatedProperties;

/**
 * Where the air of an hour lies among the nodes of a response table: the nodes around it, and the
 * weights by which it takes part of them. The same for every table. Overwritten by the next hour.
 */
final class AirPlace {

  final double[] wetBulbWeights = new double[Axis.CUBIC];
  final double[] drynessWeights = new double[Axis.CUBIC];

  /** Weights of the four nodes with slopes around the hour, the change of pressure in them. */
  final double[] slopeWeights = new double[4];

  /** First of the four nodes of wet bulb around the hour. */
  int wetBulb;

  private int dryness;
  private int slopeNode;

  /**
   * Finds the place of an hour.
   *
   * @param dryBulbC °C
   * @param wetBulbC °C, over ice below freezing; at most the dry bulb
   * @param pressureChange pressure over design pressure, less one
   * @param pressurePa station pressure, Pa
   */
  void find(double dryBulbC, double wetBulbC, double pressureChange, double pressurePa) {
    double liquidC = wetBulbC < 0 ? liquidWetBulbC(dryBulbC, wetBulbC, pressurePa) : wetBulbC;
    double vapourPa = TabulatedProperties.saturationPressurePa(liquidC);
    double saturated = HumidityRatio.MOLAR_MASS_RATIO * vapourPa / (pressurePa - vapourPa);
    double dry = ResponseGrid.dryness(dryBulbC - liquidC, liquidC, saturated);
    int wetInterval = ResponseGrid.WET_BULB_C.interval(liquidC);
    int dryInterval = ResponseGrid.DRYNESS.interval(dry);
    wetBulb = ResponseGrid.WET_BULB_C.window(wetInterval);
    dryness = ResponseGrid.DRYNESS.window(dryInterval);
    ResponseGrid.WET_BULB_C.cubic(wetBulb, liquidC, wetBulbWeights);
    ResponseGrid.DRYNESS.cubic(dryness, dry, drynessWeights);
    int fewWet = ResponseGrid.FEW_WET_BULB.interval(wetInterval);
    int fewDry = ResponseGrid.FEW_DRYNESS.interval(dryInterval);
    double shareWet = ResponseGrid.FEW_WET_BULB.share(fewWet, liquidC);
    double shareDry = ResponseGrid.FEW_DRYNESS.share(fewDry, dry);
    slopeNode = ResponseGrid.slopeAirNode(fewWet, fewDry);
    double upper = pressureChange * shareWet;
    double lower = pressureChange - upper;
    slopeWeights[0] = lower * (1 - shareDry);
    slopeWeights[1] = lower * shareDry;
    slopeWeights[2] = upper * (1 - shareDry);
    slopeWeights[3] = upper * shareDry;
  }

  /** The node {@code j} steps of wet bulb and {@code k} of dryness from the first, 0 … 3 each. */
  int node(int j, int k) {
    return ResponseGrid.airNode(wetBulb + j, dryness + k);
  }

  /** The node with slopes at a corner of wet bulb and dryness, 0 … 3. */
  int slopeNode(int corner) {
    return slopeNode + (corner >> 1) * ResponseGrid.SLOPE_DRYNESS.length + (corner & 1);
  }

  /** Limit of cooling, °C. */
  double limitC(ResponseNodes nodes) {
    double[] from = nodes.limitC();
    double[] slopes = nodes.limitSlopes();
    double sum = 0;
    for (int j = 0; j < Axis.CUBIC; j++) {
      int o = node(j, 0);
      sum +=
          wetBulbWeights[j]
              * (drynessWeights[0] * from[o]
                  + drynessWeights[1] * from[o + 1]
                  + drynessWeights[2] * from[o + 2]
                  + drynessWeights[3] * from[o + 3]);
      sum += slopeWeights[j] * slopes[slopeNode(j)];
    }
    return sum;
  }

  /** Wet bulb over liquid water from one over ice: equation 35, then Newton's method on 33. */
  private static double liquidWetBulbC(double dryBulbC, double iceC, double pressurePa) {
    double icePa = TabulatedProperties.saturationPressureOverIcePa(iceC);
    double overIce = HumidityRatio.MOLAR_MASS_RATIO * icePa / (pressurePa - icePa);
    double w =
        ((2830 - 0.24 * iceC) * overIce - 1.006 * (dryBulbC - iceC))
            / (2830 + 1.86 * dryBulbC - 2.1 * iceC);
    double t = iceC;
    for (int i = 0; i < 6; i++) {
      double vapourPa = TabulatedProperties.saturationPressurePa(t);
      double saturated = HumidityRatio.MOLAR_MASS_RATIO * vapourPa / (pressurePa - vapourPa);
      double f =
          (2501 - 2.326 * t) * saturated
              - 1.006 * (dryBulbC - t)
              - w * (2501 + 1.86 * dryBulbC - 4.186 * t);
      double slope = 2501 * saturated * SaturationPressure.logSlopeOverWater(t) + 1.006;
      double step = f / slope;
      t -= step;
      if (Math.abs(step) < 1e-3) {
        break;
      }
    }
    return t;
  }
}
