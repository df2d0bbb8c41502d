package towerledger.finding;

/**
 * An estimate with its 95 % interval, in litres or in money.
 *
 * @param value best estimate
 * @param low lower bound
 * @param high upper bound
 */
public record Range(double value, double low, double high) {

  public Range {
    if (!(low <= value && value <= high)) {
      throw new IllegalArgumentException(
          "estimate %s lies outside its interval %s to %s".formatted(value, low, high));
    }
  }

  Range times(double factor) {
    return factor >= 0
        ? new Range(value * factor, low * factor, high * factor)
        : new Range(value * factor, high * factor, low * factor);
  }
}
