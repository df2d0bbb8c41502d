package towerledger.thermal.water;

import towerledger.quantity.Flow;
import towerledger.quantity.OutOfRangeException;
import towerledger.quantity.Pressure;

/** Flow of water through fill valves and holes. */
public final class Discharge {

  /** Usual discharge coefficient of a sharp-edged hole; leak charts imply 0.615 to 0.625. */
  public static final double USUAL_COEFFICIENT = 0.61;

  private static final double WATER_KG_PER_M3 = 998.2;
  private static final double BAR_PA = 100_000;

  private Discharge() {}

  /**
   * Flow through a valve: Q = Kv √Δp with Δp in bar and Q in m³/h (the definition of Kv; Cv is the
   * same with psi and gpm).
   *
   * @param kv flow coefficient, m³/h at 1 bar, above zero
   * @param drop pressure drop, not negative
   */
  public static Flow throughValve(double kv, Pressure drop) {
    OutOfRangeException.requirePositive("flow coefficient", kv, "m³/h", "see the valve's sheet");
    return Flow.ofLitresPerSecond(kv * Math.sqrt(requireDrop(drop) / BAR_PA) / 3.6);
  }

  /**
   * Flow through a hole: Q = Cd A √(2 Δp / ρ), Torricelli's law.
   *
   * @param diameterMm bore, mm, above zero
   * @param drop pressure drop, not negative
   * @param coefficient discharge coefficient, 0.3 … 1
   */
  public static Flow throughHole(double diameterMm, Pressure drop, double coefficient) {
    OutOfRangeException.requirePositive("hole", diameterMm, "mm", "give its bore");
    OutOfRangeException.requireWithin(
        "discharge coefficient", coefficient, 0.3, 1, "", "0.61 suits a sharp-edged hole");
    double areaM2 = Math.PI / 4 * diameterMm * diameterMm * 1e-6;
    double speed = Math.sqrt(2 * requireDrop(drop) / WATER_KG_PER_M3);
    return Flow.ofLitresPerSecond(coefficient * areaM2 * speed * 1000);
  }

  private static double requireDrop(Pressure drop) {
    if (!(drop.pascals() >= 0)) {
      throw new OutOfRangeException(
          "pressure drop",
          drop.pascals(),
          "Pa",
          "must not be negative",
          "check which side has the higher pressure");
    }
    return drop.pascals();
  }
}
