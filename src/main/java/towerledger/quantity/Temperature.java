package towerledger.quantity;

/**
 * A temperature.
 *
 * @param celsius degrees Celsius, at or above absolute zero (−273.15)
 */
public record Temperature(double celsius) implements Comparable<Temperature> {

  /** 0 °C in kelvin; exact (NIST SP 811, B.8). */
  public static final double ZERO_CELSIUS_IN_KELVIN = 273.15;

  public Temperature {
    Finite.requireAtLeast("temperature", celsius, -ZERO_CELSIUS_IN_KELVIN, "°C");
  }

  public static Temperature ofCelsius(double celsius) {
    return new Temperature(celsius);
  }

  public static Temperature ofFahrenheit(double fahrenheit) {
    return new Temperature(Units.celsius(fahrenheit));
  }

  public double fahrenheit() {
    return Units.fahrenheit(celsius);
  }

  public double kelvin() {
    return celsius + ZERO_CELSIUS_IN_KELVIN;
  }

  @Override
  public int compareTo(Temperature other) {
    return Double.compare(celsius, other.celsius);
  }
}
