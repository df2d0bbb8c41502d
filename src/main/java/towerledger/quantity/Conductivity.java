package towerledger.quantity;

/**
 * Electrical conductivity of water, the trade's measure of dissolved solids.
 *
 * @param microsiemensPerCm µS/cm at 25 °C, not negative
 */
public record Conductivity(double microsiemensPerCm) {

  public Conductivity {
    Finite.requireAtLeast("conductivity", microsiemensPerCm, 0, "µS/cm");
  }

  public static Conductivity ofMicrosiemensPerCm(double microsiemensPerCm) {
    return new Conductivity(microsiemensPerCm);
  }
}
