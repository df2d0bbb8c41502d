package towerledger.thermal.fill;

import towerledger.psychrometrics.MoistAir;

/**
 * A counter-flow fill whose law is known, solved for the air it needs or the cold water it makes.
 *
 * <p>The equation solved is 1/Me(needed) = 1/Me(available): the left side is nearly linear in the
 * unknown and stays finite where the driving force vanishes, so that a bracketed secant converges
 * in a handful of integrations. An object serves one thread.
 */
public final class CounterflowFill {

  /** Runge–Kutta steps of the reference calculation. */
  public static final int REFERENCE_STEPS = 12;

  private static final int MOST_ITERATIONS = 80;

  /** Hottest water any tower is calculated for, °C: beyond it boiling nears. */
  public static final double HOTTEST_WATER_C = 90;

  /** No tower evaporates more of its water; tries that say so are far from any solution. */
  private static final double MOST_EVAPORATED_SHARE = 0.5;

  /** Guesses of the evaporation that swing this much on each try are met half-way. */
  private static final double SWINGING = 0.3;

  private static final double SETTLED = 1e-4;

  private final FillLaw law;
  private final PoppeIntegration poppe;
  private final double tolerance;

  private double inletHumidity;
  private double inletEnthalpy;
  private double pressurePa;
  private double coldestC;
  private double humidityGainPerWater = 0.01;
  private double lastChange;

  /** Slope of the transfer excess with the logarithm of water over air; NaN where not known. */
  private double relativeSlope = Double.NaN;

  /**
   * @param law transfer of the fill
   * @param properties fluid properties
   * @param steps Runge–Kutta steps of each integration
   * @param tolerance relative tolerance on the transfer, for instance 1e-8
   */
  public CounterflowFill(FillLaw law, AirWaterProperties properties, int steps, double tolerance) {
    this.law = law;
    this.poppe = new PoppeIntegration(properties, steps);
    this.tolerance = tolerance;
  }

  /** Sets the air that enters. */
  public void enter(MoistAir air, double wetBulbC) {
    enter(air.humidityRatio(), air.enthalpyJPerKg(), air.pressurePa(), wetBulbC);
  }

  /**
   * Sets the air that enters, by its plain values.
   *
   * @param wetBulbC wet bulb over liquid water, °C
   */
  public void enter(
      double humidityRatio, double enthalpyJPerKg, double atPressurePa, double wetBulbC) {
    this.inletHumidity = humidityRatio;
    this.inletEnthalpy = enthalpyJPerKg;
    this.pressurePa = atPressurePa;
    this.coldestC = poppe.coldestWaterC(humidityRatio, enthalpyJPerKg, atPressurePa, wetBulbC);
  }

  /**
   * Temperature that water tends to in this air, °C: near the wet bulb, and the limit of cooling.
   */
  public double coldestC() {
    return coldestC;
  }

  /**
   * Air needed to cool water from one temperature to another, as dry air over water, kg/kg.
   *
   * @param hotC water entering, °C
   * @param coldC water leaving, °C, above {@link #coldestC()}
   * @param guess a first guess, kg/kg
   * @param most largest ratio of interest
   * @return kg of dry air per kg of water, or positive infinity when even {@code most} does not do
   */
  public double airToWaterFor(double hotC, double coldC, double guess, double most) {
    if (coldC <= coldestC + 1e-6) {
      return Double.POSITIVE_INFINITY;
    }
    // unknown s = water over air
    double least = 1 / most;
    double s0 = Math.max(1 / guess, least);
    double f0 = transferExcess(hotC, coldC, s0);
    double s1 = Math.max(s0 * second(f0), least);
    double f1 = transferExcess(hotC, coldC, s1);
    // a good guess needs no bracket: a few free secant steps
    for (int i = 0; i < 8 && f1 != f0; i++) {
      double slope = (f1 - f0) / (s1 - s0);
      double s2 = s1 - f1 / slope;
      if (!(s2 > 0.5 * s1 && s2 < 2 * s1 && s2 > least)) {
        break;
      }
      if (Math.abs(f1) < tolerance || Math.abs(s2 - s1) < tolerance * s1) {
        relativeSlope = slope * s1;
        return 1 / s2;
      }
      s0 = s1;
      f0 = f1;
      s1 = s2;
      f1 = transferExcess(hotC, coldC, s1);
    }
    double s = enclosed(hotC, coldC, s1, f1, least);
    if (s > 0) {
      settleEvaporation(hotC, coldC, s);
    }
    return 1 / s;
  }

  /** Tries a state again until its evaporation agrees with what was expected of it. */
  private void settleEvaporation(double hotC, double coldC, double waterToAir) {
    for (int i = 0; i < 10 && Math.abs(lastChange) > SETTLED * humidityGainPerWater; i++) {
      transferExcess(hotC, coldC, waterToAir);
    }
  }

  /** Second try over the first: where the slope expected leads, else a little to its side. */
  private double second(double atFirst) {
    double step = -atFirst / relativeSlope;
    return Math.abs(step) > 1e-4 && Math.abs(step) < 0.4 ? 1 + step : atFirst > 0 ? 1.03 : 1 / 1.03;
  }

  /** Walks until the sign changes, then closes in; zero when it does not change above the least. */
  private double enclosed(double hotC, double coldC, double start, double atStart, double least) {
    double near = start;
    double atNear = atStart;
    while (atNear > 0) {
      double next = 1.3 * near;
      double atNext = transferExcess(hotC, coldC, next);
      if (!(atNext > 0)) {
        return bracketed(hotC, coldC, near, atNear, next, atNext);
      }
      near = next;
      atNear = atNext;
    }
    while (near > least) {
      double next = Math.max(near / 1.3, least);
      double atNext = transferExcess(hotC, coldC, next);
      if (atNext > 0) {
        return bracketed(hotC, coldC, next, atNext, near, atNear);
      }
      near = next;
      atNear = atNext;
    }
    return 0;
  }

  private double bracketed(double hotC, double coldC, double a, double fa, double b, double fb) {
    double lo = a;
    double flo = fa;
    double hi = b;
    double fhi = fb;
    double x = lo;
    for (int i = 0; i < MOST_ITERATIONS; i++) {
      double previous = x;
      x = lo + (hi - lo) * flo / (flo - fhi);
      double f = transferExcess(hotC, coldC, x);
      if (Math.abs(f) < tolerance || Math.abs(x - previous) < tolerance * x) {
        return x;
      }
      if (f > 0) {
        fhi *= sameSide(f, flo);
        lo = x;
        flo = f;
      } else {
        flo *= sameSide(f, fhi);
        hi = x;
        fhi = f;
      }
    }
    return x;
  }

  /** Anderson and Björck (1973): weight of the end that stays, so that the bracket closes in. */
  private static double sameSide(double now, double before) {
    double weight = 1 - now / before;
    return weight > 0 ? weight : 0.5;
  }

  /** Available minus needed transfer in reciprocals; falls as water over air rises. */
  private double transferExcess(double hotC, double coldC, double waterToAir) {
    double reciprocal = 1 / law.merkelNumber(waterToAir);
    boolean complete =
        poppe.pass(
            hotC,
            coldC,
            waterToAir,
            inletHumidity,
            inletEnthalpy,
            pressurePa,
            humidityGainPerWater * waterToAir);
    if (!complete) {
      return -reciprocal - (hotC - poppe.reachedC()) / (hotC - coldC);
    }
    double found = (poppe.humidity() - inletHumidity) / waterToAir;
    double change = Math.min(found, MOST_EVAPORATED_SHARE) - humidityGainPerWater;
    if (change * lastChange < 0 && Math.abs(change) > SWINGING * Math.abs(lastChange)) {
      change /= 2;
    }
    humidityGainPerWater += change;
    lastChange = change;
    return 1 / poppe.merkelNumber() - reciprocal;
  }

  /**
   * Temperature to which a flow of air cools water that gives off a known heat.
   *
   * @param rangeK heat over water flow and heat capacity, K, above zero
   * @param airToWater dry air over water, kg/kg
   * @param guessC a first guess, °C
   * @return °C, or positive infinity when the water would have to be hotter than {@link
   *     #HOTTEST_WATER_C}
   */
  public double coldWaterFor(double rangeK, double airToWater, double guessC) {
    double s = 1 / airToWater;
    double highest = HOTTEST_WATER_C - rangeK;
    double lo = coldestC;
    double flo = -1 / law.merkelNumber(s);
    double x = Math.min(Math.max(guessC, lo + 1e-3 * rangeK), highest);
    double f = transferExcess(x + rangeK, x, s);
    double hi = x;
    double fhi = f;
    while (fhi < 0) {
      if (hi >= highest) {
        return Double.POSITIVE_INFINITY;
      }
      lo = hi;
      flo = fhi;
      hi = Math.min(hi + 0.5 * (hi - coldestC) + 0.2 * rangeK, highest);
      fhi = transferExcess(hi + rangeK, hi, s);
    }
    for (int i = 0; i < MOST_ITERATIONS; i++) {
      double previous = x;
      x = lo + (hi - lo) * flo / (flo - fhi);
      f = transferExcess(x + rangeK, x, s);
      if (Math.abs(f) < tolerance || Math.abs(x - previous) < tolerance * rangeK) {
        return x;
      }
      if (f < 0) {
        fhi *= sameSide(f, flo);
        lo = x;
        flo = f;
      } else {
        flo *= sameSide(f, fhi);
        hi = x;
        fhi = f;
      }
    }
    return x;
  }

  /**
   * Cold water made from hot water of a known temperature, for fills that share one hot main.
   *
   * @param hotC water entering, °C
   * @param airToWater dry air over water, kg/kg
   * @return °C
   */
  public double coldWaterFromHot(double hotC, double airToWater) {
    double s = 1 / airToWater;
    double span = hotC - coldestC;
    // times the range, the difference of reciprocals is finite at both ends
    double lo = coldestC;
    double flo = -span / law.merkelNumber(s);
    double hi = hotC - 1e-3 * span;
    double fhi = 1e-3 * span * transferExcess(hotC, hi, s);
    if (fhi <= 0) {
      return hi;
    }
    double x = hi;
    for (int i = 0; i < MOST_ITERATIONS; i++) {
      double previous = x;
      x = lo + (hi - lo) * flo / (flo - fhi);
      double f = (hotC - x) * transferExcess(hotC, x, s);
      if (Math.abs(f) < tolerance * span || Math.abs(x - previous) < tolerance * span) {
        break;
      }
      if (f < 0) {
        fhi *= sameSide(f, flo);
        lo = x;
        flo = f;
      } else {
        flo *= sameSide(f, fhi);
        hi = x;
        fhi = f;
      }
    }
    settleEvaporation(hotC, x, s);
    return x;
  }

  /**
   * Settles the humidity gain of a state after it was found and gives the integration that holds
   * it.
   */
  public PoppeIntegration settle(double hotC, double coldC, double airToWater) {
    poppe.run(hotC, coldC, 1 / airToWater, inletHumidity, inletEnthalpy, pressurePa);
    return poppe;
  }

  /**
   * Tells what to expect, so that the next solution starts near it.
   *
   * @param evaporatedShare water evaporated over water entering
   * @param slope {@link #relativeSlope()} of a solution nearby; NaN where none is known
   */
  public void expect(double evaporatedShare, double slope) {
    humidityGainPerWater = evaporatedShare;
    lastChange = 0;
    relativeSlope = slope;
  }

  /**
   * Slope of the equation solved with the logarithm of water over air, at the air last found; of
   * use to {@link #expect} only.
   */
  public double relativeSlope() {
    return relativeSlope;
  }

  /** Water evaporated over water entering, kg/kg, at the state last tried. */
  public double evaporatedShare() {
    return humidityGainPerWater;
  }
}
