package towerledger.thermal;

import static java.lang.Math.fma;

import towerledger.psychrometrics.HumidityRatio;
import towerledger.psychrometrics.SaturationPressure;
import towerledger.thermal.fill.TabulatedProperties;

/**
 * Reads a response table. Holds working memory, so that an object serves one thread and one series.
 *
 * <p>The nodes around an hour are added up into two polynomials in the cold-water coordinate y: one
 * for evaporation per range, one for the logarithm of air over load. The set-point gives y at once;
 * where it asks for more air than there is, or for less than the least, y is sought instead.
 */
final class ResponseLookup {

  private static final double LEAST_LOG_AIR = Math.log(WetTower.LEAST_AIR_SHARE);
  private static final int AIR = ResponseGrid.COLD;

  private final ResponseNodes nodes;
  private final double[] wetBulbWeights = new double[4];
  private final double[] drynessWeights = new double[4];
  private final double[] loadWeights = new double[4];
  private final double[] c = new double[ResponseGrid.BLOCK];
  private final double[] fans;
  private int slopeU;
  private int slopeD;
  private double slopeShareU;
  private double slopeShareD;

  ResponseLookup(ResponseNodes nodes) {
    this.nodes = nodes;
    this.fans = new double[nodes.fanStates() * AlternatingFans.COEFFICIENTS];
  }

  /**
   * Evaporation over water and range, 1/K.
   *
   * @param load load over design load of the cells in service, within the table
   * @param pressureChange pressure over design pressure, less one
   */
  double perRange(
      double load,
      double dryBulbC,
      double wetBulbC,
      double pressureChange,
      double pressurePa,
      double setPointC) {
    double liquidC = wetBulbC < 0 ? liquidWetBulbC(dryBulbC, wetBulbC, pressurePa) : wetBulbC;
    double vapourPa = TabulatedProperties.saturationPressurePa(liquidC);
    double saturated = HumidityRatio.MOLAR_MASS_RATIO * vapourPa / (pressurePa - vapourPa);
    double dryness = (dryBulbC - liquidC) / ResponseGrid.depressionScaleK(liquidC, saturated);
    double logLoad = Math.log(load);
    int u = ResponseGrid.wetBulbWindow(liquidC);
    int d = ResponseGrid.drynessWindow(dryness);
    int x = ResponseGrid.loadWindow(logLoad);
    ResponseGrid.wetBulbWeights(u, liquidC, wetBulbWeights);
    ResponseGrid.drynessWeights(d, dryness, drynessWeights);
    ResponseGrid.loadWeights(x, logLoad, loadWeights);
    findSlopes(liquidC, dryness);
    gather(u, d, x);
    addSlopes(logLoad, pressureChange);
    double limitC = limit(u, d, pressureChange);
    double lowest = lowest(u, x);
    double logRatio = Math.log((ResponseGrid.HOTTEST_C - limitC) / lowest);
    double held = heldAt(limitC, lowest, logRatio, setPointC, -logLoad);
    if (Double.isNaN(held)) {
      return evaporation(coldWater(limitC, lowest, logRatio, setPointC, -logLoad));
    }
    if (nodes.fanStates() == 0) {
      return evaporation(held);
    }
    gatherFans(u, d, pressureChange);
    return AlternatingFans.evaporationPerRange(
        fans, nodes.fanStates(), limitC, setPointC, load * nodes.rangeK(), nodes.rangeK());
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

  /**
   * The cold-water coordinate of the set-point, or NaN when the air cannot hold it.
   *
   * @param fullAir logarithm of full air over load
   */
  private double heldAt(
      double limitC, double lowest, double logRatio, double setPointC, double fullAir) {
    double pull = setPointC - limitC;
    if (pull <= 0.3 * lowest) {
      return Double.NaN;
    }
    double y = Math.log(pull / lowest) / logRatio;
    double air = air(y);
    return air <= fullAir && air >= fullAir + LEAST_LOG_AIR ? y : Double.NaN;
  }

  /** The cold-water coordinate with all the air, or the least, where that is what there is. */
  private double coldWater(
      double limitC, double lowest, double logRatio, double setPointC, double fullAir) {
    double pull = setPointC - limitC;
    if (pull <= 0.3 * lowest) {
      return coldWaterAt(fullAir, 0);
    }
    double y = Math.log(pull / lowest) / logRatio;
    if (air(y) > fullAir) {
      return coldWaterAt(fullAir, Math.max(y, 0));
    }
    y = coldWaterAt(fullAir + LEAST_LOG_AIR, y);
    if (limitC < WetTower.COLDEST_BASIN_C) {
      double floor = Math.log((WetTower.COLDEST_BASIN_C - limitC) / lowest) / logRatio;
      return Math.max(y, floor);
    }
    return y;
  }

  private double evaporation(double y) {
    return ChebyshevNodes.value(c, 0, y);
  }

  private double air(double y) {
    return ChebyshevNodes.value(c, AIR, y);
  }

  private double airSlope(double y) {
    return ChebyshevNodes.slope(c, AIR, y);
  }

  /** Coordinate at which the air is as given, by Newton's method on the polynomial. */
  private double coldWaterAt(double logAir, double start) {
    double y = start;
    for (int i = 0; i < 12; i++) {
      double step = (air(y) - logAir) / airSlope(y);
      step = Math.max(-0.4, Math.min(0.4, step));
      y = Math.max(-0.3, Math.min(1.05, y - step));
      if (Math.abs(step) < 1e-4) {
        break;
      }
    }
    return y;
  }

  /** Coldest water of the table above the limit of cooling, K. */
  private double lowest(int u, int x) {
    double[] from = nodes.lowest();
    double sum = 0;
    for (int j = 0; j < 4; j++) {
      int row = (u + j) * ResponseGrid.LOAD.length + x;
      sum +=
          wetBulbWeights[j]
              * (loadWeights[0] * from[row]
                  + loadWeights[1] * from[row + 1]
                  + loadWeights[2] * from[row + 2]
                  + loadWeights[3] * from[row + 3]);
    }
    return sum;
  }

  private double limit(int u, int d, double pressureChange) {
    double[] from = nodes.limitC();
    double sum = 0;
    for (int j = 0; j < 4; j++) {
      int row = ResponseGrid.airNode(u + j, d);
      sum +=
          wetBulbWeights[j]
              * (drynessWeights[0] * from[row]
                  + drynessWeights[1] * from[row + 1]
                  + drynessWeights[2] * from[row + 2]
                  + drynessWeights[3] * from[row + 3]);
    }
    for (int corner = 0; corner < 4; corner++) {
      sum += pressureChange * slopeWeight(corner) * nodes.limitSlopes()[slopeNode(corner)];
    }
    return sum;
  }

  /** Finds the four nodes with slopes around the hour. */
  private void findSlopes(double wetBulbC, double dryness) {
    int[] fewU = ResponseGrid.SLOPE_WET_BULB;
    int[] fewD = ResponseGrid.SLOPE_DRYNESS;
    slopeU = ResponseGrid.slopeInterval(ResponseGrid.WET_BULB_C, fewU, wetBulbC);
    slopeD = ResponseGrid.slopeInterval(ResponseGrid.DRYNESS, fewD, dryness);
    slopeShareU = ResponseGrid.slopeShare(ResponseGrid.WET_BULB_C, fewU, slopeU, wetBulbC);
    slopeShareD = ResponseGrid.slopeShare(ResponseGrid.DRYNESS, fewD, slopeD, dryness);
  }

  private int slopeNode(int corner) {
    return ResponseGrid.slopeNode(slopeU + (corner >> 1), slopeD + (corner & 1));
  }

  private double slopeWeight(int corner) {
    return ((corner & 2) == 0 ? 1 - slopeShareU : slopeShareU)
        * ((corner & 1) == 0 ? 1 - slopeShareD : slopeShareD);
  }

  /**
   * Adds up the 64 blocks around the hour, twelve coefficients each. The sums stand in variables of
   * their own because the compiler would otherwise store and load them 64 times.
   */
  private void gather(int u, int d, int x) {
    double[] b = nodes.blocks();
    double s0 = 0;
    double s1 = 0;
    double s2 = 0;
    double s3 = 0;
    double s4 = 0;
    double s5 = 0;
    double s6 = 0;
    double s7 = 0;
    double s8 = 0;
    double s9 = 0;
    double s10 = 0;
    double s11 = 0;
    for (int j = 0; j < 4; j++) {
      for (int k = 0; k < 4; k++) {
        double w = wetBulbWeights[j] * drynessWeights[k];
        double w0 = w * loadWeights[0];
        double w1 = w * loadWeights[1];
        double w2 = w * loadWeights[2];
        double w3 = w * loadWeights[3];
        int o = ResponseGrid.offset(ResponseGrid.airNode(u + j, d + k), x);
        s0 = fma(w3, b[o + 36], fma(w2, b[o + 24], fma(w1, b[o + 12], fma(w0, b[o], s0))));
        s1 = fma(w3, b[o + 37], fma(w2, b[o + 25], fma(w1, b[o + 13], fma(w0, b[o + 1], s1))));
        s2 = fma(w3, b[o + 38], fma(w2, b[o + 26], fma(w1, b[o + 14], fma(w0, b[o + 2], s2))));
        s3 = fma(w3, b[o + 39], fma(w2, b[o + 27], fma(w1, b[o + 15], fma(w0, b[o + 3], s3))));
        s4 = fma(w3, b[o + 40], fma(w2, b[o + 28], fma(w1, b[o + 16], fma(w0, b[o + 4], s4))));
        s5 = fma(w3, b[o + 41], fma(w2, b[o + 29], fma(w1, b[o + 17], fma(w0, b[o + 5], s5))));
        s6 = fma(w3, b[o + 42], fma(w2, b[o + 30], fma(w1, b[o + 18], fma(w0, b[o + 6], s6))));
        s7 = fma(w3, b[o + 43], fma(w2, b[o + 31], fma(w1, b[o + 19], fma(w0, b[o + 7], s7))));
        s8 = fma(w3, b[o + 44], fma(w2, b[o + 32], fma(w1, b[o + 20], fma(w0, b[o + 8], s8))));
        s9 = fma(w3, b[o + 45], fma(w2, b[o + 33], fma(w1, b[o + 21], fma(w0, b[o + 9], s9))));
        s10 = fma(w3, b[o + 46], fma(w2, b[o + 34], fma(w1, b[o + 22], fma(w0, b[o + 10], s10))));
        s11 = fma(w3, b[o + 47], fma(w2, b[o + 35], fma(w1, b[o + 23], fma(w0, b[o + 11], s11))));
      }
    }
    c[0] = s0;
    c[1] = s1;
    c[2] = s2;
    c[3] = s3;
    c[4] = s4;
    c[5] = s5;
    c[6] = s6;
    c[7] = s7;
    c[8] = s8;
    c[9] = s9;
    c[10] = s10;
    c[11] = s11;
  }

  /** Adds the effect of pressure, linear between the nearest nodes. */
  private void addSlopes(double logLoad, double change) {
    int[] few = ResponseGrid.SLOPE_LOAD;
    int x = ResponseGrid.slopeInterval(ResponseGrid.LOG_LOAD, few, logLoad);
    double share = ResponseGrid.slopeShare(ResponseGrid.LOG_LOAD, few, x, logLoad);
    double[] b = nodes.blockSlopes();
    for (int corner = 0; corner < 4; corner++) {
      double w = change * slopeWeight(corner);
      int o = ResponseGrid.slopeOffset(slopeNode(corner), x);
      for (int i = 0; i < ResponseGrid.BLOCK; i++) {
        c[i] += w * ((1 - share) * b[o + i] + share * b[o + i + ResponseGrid.BLOCK]);
      }
    }
  }

  /** Adds up the coefficients of fans that alternate. */
  private void gatherFans(int u, int d, double change) {
    int length = fans.length;
    for (int i = 0; i < length; i++) {
      fans[i] = 0;
    }
    for (int j = 0; j < 4; j++) {
      for (int k = 0; k < 4; k++) {
        addFans(
            nodes.alternating(),
            ResponseGrid.airNode(u + j, d + k) * length,
            wetBulbWeights[j] * drynessWeights[k]);
      }
    }
    for (int corner = 0; corner < 4; corner++) {
      addFans(nodes.alternatingSlopes(), slopeNode(corner) * length, change * slopeWeight(corner));
    }
  }

  private void addFans(double[] from, int offset, double weight) {
    for (int i = 0; i < fans.length; i++) {
      fans[i] += weight * from[offset + i];
    }
  }
}
