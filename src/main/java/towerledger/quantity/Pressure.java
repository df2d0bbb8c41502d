package towerledger.quantity;

/**
 * A pressure; gauge or absolute is said where it is used.
 *
 * @param pascals any finite pressure
 */
public record Pressure(double pascals) {

  public Pressure {
    Finite.require("pressure", pascals, "Pa");
  }

  public static Pressure ofPascals(double pascals) {
    return new Pressure(pascals);
  }

  public static Pressure ofKilopascals(double kilopascals) {
    return new Pressure(kilopascals * 1000);
  }

  public static Pressure ofPsi(double psi) {
    return new Pressure(psi * Units.PASCALS_PER_PSI);
  }

  public static Pressure ofInchesOfMercury(double inHg) {
    return new Pressure(inHg * Units.PASCALS_PER_INCH_HG);
  }

  public double psi() {
    return pascals / Units.PASCALS_PER_PSI;
  }

  public double kilopascals() {
    return pascals / 1000;
  }

  public double inchesOfMercury() {
    return pascals / Units.PASCALS_PER_INCH_HG;
  }
}
