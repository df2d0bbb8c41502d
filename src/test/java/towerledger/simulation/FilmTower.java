package towerledger.simulation;

/**
 * An open tower by the Poppe method, integrated hour by hour (equations as in Kröger, Air-cooled
 * Heat Exchangers and Cooling Towers, 2004, ch. 4), with Bošnjaković's Lewis factor and with mist
 * where the air oversaturates. The ledger tabulates its towers; here each hour is integrated anew.
 */
final class FilmTower implements WetCooler {

  private static final int STEPS = 4;
  private static final double LEWIS_STILL = Math.pow(0.865, 2.0 / 3);

  private final double waterKgS;
  private final double airKgS;
  private final double fillCoefficient;
  private final double fillExponent;
  private final double leastAirPart;

  private double warmAir = 0.5;
  private double warmCold = 25;
  private double warmLoss = 0.012;
  private double evaporationKgS;
  private double coldC;
  private double hotC;
  private double airPart;

  // State of one integration.
  private double w;
  private double h;
  private double merkel;
  private double dw;
  private double dh;
  private double dMe;

  /**
   * A tower that just meets its rating.
   *
   * @param waterKgS circulation
   * @param liquidToGas water to dry air at the rating
   * @param fillExponent how the fill's Merkel number falls with L/G
   * @param leastAirPart air drawn with fans at their slowest
   */
  FilmTower(
      double waterKgS,
      double liquidToGas,
      double fillExponent,
      double leastAirPart,
      double hotC,
      double coldC,
      double dryBulbC,
      double inRatio,
      double pressurePa) {
    this.waterKgS = waterKgS;
    this.airKgS = waterKgS / liquidToGas;
    this.fillExponent = fillExponent;
    this.leastAirPart = leastAirPart;
    double me = merkel(coldC, hotC, airKgS, dryBulbC, inRatio, pressurePa);
    me = merkel(coldC, hotC, airKgS, dryBulbC, inRatio, pressurePa);
    if (!(me > 0)) {
      throw new IllegalArgumentException(
          "no tower can cool %.1f to %.1f °C at L/G %.2f in that air"
              .formatted(hotC, coldC, liquidToGas));
    }
    this.fillCoefficient = me * Math.pow(liquidToGas, fillExponent);
  }

  @Override
  public void settle(
      double heatW, double inDryBulbC, double inRatio, double pressurePa, double setpointC) {
    double range = heatW / (waterKgS * Air.CP_WATER);
    double full = shortfall(setpointC, range, 1, inDryBulbC, inRatio, pressurePa);
    if (full <= 0) {
      coldC = setpointC;
      airPart = throttled(setpointC, range, full, inDryBulbC, inRatio, pressurePa);
    } else {
      airPart = 1;
      coldC = floated(setpointC, range, full, inDryBulbC, inRatio, pressurePa);
    }
    hotC = coldC + range;
    evaporationKgS = airPart * airKgS * (w - inRatio);
  }

  /** The air that just holds the set-point; never less than the slowest fan draws. */
  private double throttled(
      double setpointC, double range, double full, double dryC, double ratio, double pa) {
    double high = 0;
    double fHigh = full;
    double low = Math.log(leastAirPart);
    double fLow = Double.NaN;
    double x = Math.min(-0.01, Math.max(low, Math.log(warmAir)));
    for (int i = 0; i < 40; i++) {
      double f = shortfall(setpointC, range, Math.exp(x), dryC, ratio, pa);
      if (Math.abs(f) < 0.004) {
        break;
      }
      if (f > 0) {
        low = x;
        fLow = f;
      } else {
        high = x;
        fHigh = f;
        if (x <= Math.log(leastAirPart) + 1e-9) {
          break;
        }
      }
      double next;
      if (Double.isNaN(fLow)) {
        next = Math.max(low, x + f / 0.9);
      } else if (fLow > 5) {
        next = (low + high) / 2;
      } else {
        next = low + (high - low) * fLow / (fLow - fHigh);
      }
      if (!(next > low + 1e-6) && !Double.isNaN(fLow) || next >= high - 1e-9) {
        next = (low + high) / 2;
      }
      x = next;
    }
    warmAir = Math.exp(x);
    return warmAir;
  }

  /** The cold water that the full air flow reaches. */
  private double floated(
      double setpointC, double range, double full, double dryC, double ratio, double pa) {
    double low = setpointC;
    double fLow = full;
    double high = Double.NaN;
    double fHigh = Double.NaN;
    double x = Math.max(setpointC + 0.05, warmCold);
    for (int i = 0; i < 40; i++) {
      double f = shortfall(x, range, 1, dryC, ratio, pa);
      if (Math.abs(f) < 0.004) {
        break;
      }
      if (f > 0) {
        low = x;
        fLow = f;
      } else {
        high = x;
        fHigh = f;
      }
      if (Double.isNaN(high)) {
        x += Math.max(0.5, Math.min(4, f * 5));
      } else if (fLow > 3) {
        x = (low + high) / 2;
      } else {
        x = low + (high - low) * fLow / (fLow - fHigh);
      }
    }
    warmCold = x;
    return x;
  }

  /** How far the fill falls short of what the state asks: ln(needed) − ln(available). */
  private double shortfall(
      double cold, double range, double part, double dryC, double ratio, double pa) {
    double air = airKgS * part;
    double needed = merkel(cold, cold + range, air, dryC, ratio, pa);
    if (!(needed > 0)) {
      return 50;
    }
    double available = fillCoefficient * Math.pow(waterKgS / air, -fillExponent);
    return Math.log(needed / available);
  }

  /**
   * Merkel number after Poppe from cold to hot water, or NaN where the air cannot take the heat.
   */
  double merkel(double cold, double hot, double air, double dryC, double ratio, double pa) {
    double bottomWater = waterKgS * (1 - warmLoss);
    w = ratio;
    h = Air.enthalpy(dryC, ratio);
    merkel = 0;
    double step = (hot - cold) / STEPS;
    for (int s = 0; s < STEPS; s++) {
      double t = cold + s * step;
      double w0 = w;
      double h0 = h;
      if (!slopes(t, w0, h0, bottomWater / air + (w0 - ratio), pa)) {
        return Double.NaN;
      }
      double w1 = dw;
      double h1 = dh;
      double m1 = dMe;
      double ws = w0 + w1 * step / 2;
      if (!slopes(t + step / 2, ws, h0 + h1 * step / 2, bottomWater / air + (ws - ratio), pa)) {
        return Double.NaN;
      }
      double w2 = dw;
      double h2 = dh;
      double m2 = dMe;
      ws = w0 + w2 * step / 2;
      if (!slopes(t + step / 2, ws, h0 + h2 * step / 2, bottomWater / air + (ws - ratio), pa)) {
        return Double.NaN;
      }
      double w3 = dw;
      double h3 = dh;
      double m3 = dMe;
      ws = w0 + w3 * step;
      if (!slopes(t + step, ws, h0 + h3 * step, bottomWater / air + (ws - ratio), pa)) {
        return Double.NaN;
      }
      w = w0 + step * (w1 + 2 * w2 + 2 * w3 + dw) / 6;
      h = h0 + step * (h1 + 2 * h2 + 2 * h3 + dh) / 6;
      merkel += step * (m1 + 2 * m2 + 2 * m3 + dMe) / 6;
    }
    double loss = air * (w - ratio) / waterKgS;
    if (loss > 0 && loss < 0.08) {
      warmLoss = loss;
    }
    return merkel;
  }

  /** Poppe's three derivatives at a water temperature; false where no heat flows to the air. */
  private boolean slopes(double t, double w, double h, double waterToAir, double pa) {
    double saturated = Air.saturationRatio(t, pa);
    double vapour = Air.LATENT + Air.CP_VAPOUR * t;
    double surface = Air.CP_AIR * t + saturated * vapour;
    double airC = (h - w * Air.LATENT) / (Air.CP_AIR + w * Air.CP_VAPOUR);
    double airSaturated = Air.saturationRatio(airC, pa);
    double water = Air.CP_WATER * t;
    double humid;
    double delta;
    if (w <= airSaturated) {
      humid = w;
      double lewis = lewis(saturated, w);
      delta =
          surface
              - h
              + (lewis - 1) * (surface - h - (saturated - w) * vapour)
              - (saturated - w) * water;
    } else {
      for (int i = 0; i < 3; i++) {
        airSaturated = Air.saturationRatio(airC, pa);
        double mist = w - airSaturated;
        double value =
            Air.CP_AIR * airC
                + airSaturated * (Air.LATENT + Air.CP_VAPOUR * airC)
                + mist * Air.CP_WATER * airC;
        double slope = Air.CP_AIR + airSaturated * 17.6 * 237.0 / sq(237.0 + airC) * Air.LATENT;
        airC += (h - value) / slope;
      }
      airSaturated = Air.saturationRatio(airC, pa);
      humid = airSaturated;
      double lewis = lewis(saturated, airSaturated);
      delta =
          surface
              - h
              + (lewis - 1)
                  * (surface
                      - h
                      - (saturated - airSaturated) * vapour
                      + (w - airSaturated) * Air.CP_WATER * t)
              + (w - saturated) * water;
    }
    if (!(delta > 1) || !(saturated > humid)) {
      return false;
    }
    double drive = saturated - humid;
    dw = Air.CP_WATER * waterToAir * drive / delta;
    dh = Air.CP_WATER * waterToAir * (1 + drive * water / delta);
    dMe = Air.CP_WATER / delta;
    return true;
  }

  private static double lewis(double saturated, double humid) {
    double r = (saturated + 0.622) / (humid + 0.622);
    double excess = r - 1;
    // ln(r)/(r − 1) by its series: r stays below 1.15 in a cooling tower.
    return LEWIS_STILL / (1 - excess / 2 + excess * excess / 3 - excess * excess * excess / 4);
  }

  private static double sq(double x) {
    return x * x;
  }

  double outletRatio() {
    return w;
  }

  @Override
  public double evaporationKgS() {
    return evaporationKgS;
  }

  @Override
  public double coldC() {
    return coldC;
  }

  @Override
  public double hotC() {
    return hotC;
  }

  @Override
  public double airPart() {
    return airPart;
  }

  @Override
  public double circulationKgS() {
    return waterKgS;
  }
}
