package towerledger.quantity;

/**
 * An amount of heat or work.
 *
 * @param joules any finite amount
 */
public record Heat(double joules) {

  public Heat {
    Finite.require("heat", joules, "J");
  }

  public static Heat ofJoules(double joules) {
    return new Heat(joules);
  }

  public static Heat ofKilowattHours(double kilowattHours) {
    return new Heat(kilowattHours * Units.JOULES_PER_KWH);
  }

  /** Ton-hours of refrigeration, 12,000 Btu each. */
  public static Heat ofTonHours(double tonHours) {
    return new Heat(tonHours * Units.JOULES_PER_TON_HOUR);
  }

  /** Millions of Btu(IT). */
  public static Heat ofMillionBtu(double mmbtu) {
    return new Heat(mmbtu * 1e6 * Units.JOULES_PER_BTU);
  }

  public static Heat ofGigajoules(double gigajoules) {
    return new Heat(gigajoules * 1e9);
  }

  public double kilowattHours() {
    return joules / Units.JOULES_PER_KWH;
  }

  public double tonHours() {
    return joules / Units.JOULES_PER_TON_HOUR;
  }

  public double millionBtu() {
    return joules / (1e6 * Units.JOULES_PER_BTU);
  }

  public double gigajoules() {
    return joules / 1e9;
  }

  public Heat plus(Heat other) {
    return new Heat(joules + other.joules);
  }
}
