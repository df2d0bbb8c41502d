package towerledger.quantity;

/**
 * A volume flow of water.
 *
 * @param litresPerSecond any finite flow; negative against the usual direction
 */
public record Flow(double litresPerSecond) {

  public Flow {
    Finite.require("flow", litresPerSecond, "L/s");
  }

  public static Flow ofLitresPerSecond(double litresPerSecond) {
    return new Flow(litresPerSecond);
  }

  public static Flow ofUsGallonsPerMinute(double gpm) {
    return new Flow(gpm * Units.LITRES_PER_US_GALLON / 60);
  }

  public double usGallonsPerMinute() {
    return litresPerSecond * 60 / Units.LITRES_PER_US_GALLON;
  }

  /** What passes in a number of seconds. */
  public Volume over(double seconds) {
    return new Volume(litresPerSecond * seconds);
  }
}
