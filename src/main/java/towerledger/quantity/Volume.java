package towerledger.quantity;

/**
 * A volume of water; negative for a difference that points the other way.
 *
 * @param litres any finite number of litres
 */
public record Volume(double litres) implements Comparable<Volume> {

  /** No water. */
  public static final Volume ZERO = new Volume(0);

  public Volume {
    Finite.require("volume", litres, "L");
  }

  public static Volume ofLitres(double litres) {
    return new Volume(litres);
  }

  public static Volume ofUsGallons(double gallons) {
    return new Volume(gallons * Units.LITRES_PER_US_GALLON);
  }

  public static Volume of(double amount, VolumeUnit unit) {
    return new Volume(amount * unit.litres());
  }

  public double usGallons() {
    return litres / Units.LITRES_PER_US_GALLON;
  }

  public double cubicMetres() {
    return litres / 1000;
  }

  public double in(VolumeUnit unit) {
    return litres / unit.litres();
  }

  public Volume plus(Volume other) {
    return new Volume(litres + other.litres);
  }

  public Volume minus(Volume other) {
    return new Volume(litres - other.litres);
  }

  public Volume times(double factor) {
    return new Volume(litres * factor);
  }

  @Override
  public int compareTo(Volume other) {
    return Double.compare(litres, other.litres);
  }
}
