package towerledger.weather;

/** A file is not the weather file it was taken for. */
public class WeatherFormatException extends RuntimeException {

  public WeatherFormatException(String message) {
    super(message);
  }
}
