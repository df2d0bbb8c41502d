package towerledger.quantity;

import java.util.Locale;

/**
 * A value that the model cannot take, told so that the reader can mend it: what it is, how large it
 * is, which limit it breaks and what to do.
 */
public class OutOfRangeException extends IllegalArgumentException {

  private static final long serialVersionUID = 1L;

  private final String quantity;
  private final double value;
  private final String unit;
  private final String limit;
  private final String remedy;

  /**
   * @param quantity trade name of the value, for instance {@code "wet bulb"}
   * @param value the value as given
   * @param unit unit of the value, empty for a pure number
   * @param limit the limit in words, for instance {@code "must not be above the dry bulb of 20 °C"}
   * @param remedy what to do, for instance {@code "check whether the two were exchanged"}
   */
  public OutOfRangeException(
      String quantity, double value, String unit, String limit, String remedy) {
    super("%s of %s %s; %s".formatted(quantity, withUnit(value, unit), limit, remedy));
    this.quantity = quantity;
    this.value = value;
    this.unit = unit;
    this.limit = limit;
    this.remedy = remedy;
  }

  /**
   * Lets a value pass that lies within its limits.
   *
   * @return the value
   * @throws OutOfRangeException when it is not a number, below {@code least} or above {@code most}
   */
  public static double requireWithin(
      String quantity, double value, double least, double most, String unit, String remedy) {
    if (!(value >= least && value <= most)) {
      throw new OutOfRangeException(
          quantity,
          value,
          unit,
          "must lie between %s and %s".formatted(withUnit(least, unit), withUnit(most, unit)),
          remedy);
    }
    return value;
  }

  /**
   * Lets a finite value above zero pass.
   *
   * @return the value
   * @throws OutOfRangeException when it is not a finite number above zero
   */
  public static double requirePositive(String quantity, double value, String unit, String remedy) {
    if (!(value > 0) || Double.isInfinite(value)) {
      throw new OutOfRangeException(quantity, value, unit, "must be above zero", remedy);
    }
    return value;
  }

  /**
   * A number as people write it, with its unit; temperatures and their differences (K) in °F too,
   * since nameplates and thermometers of the trade show those.
   */
  public static String withUnit(double value, String unit) {
    return switch (unit) {
      case "" -> number(value);
      case "°C" -> "%s °C (%s °F)".formatted(number(value), number(Units.fahrenheit(value)));
      case "K" -> "%s K (%s °F)".formatted(number(value), number(value * 1.8));
      default -> number(value) + " " + unit;
    };
  }

  private static String number(double value) {
    return Double.isFinite(value)
        ? String.format(Locale.ROOT, "%.6g", value)
            .replaceFirst("(\\.\\d*?)0+(e|$)", "$1$2")
            .replaceFirst("\\.(e|$)", "$1")
        : Double.toString(value);
  }

  public String quantity() {
    return quantity;
  }

  public double value() {
    return value;
  }

  public String unit() {
    return unit;
  }

  public String limit() {
    return limit;
  }

  public String remedy() {
    return remedy;
  }
}
