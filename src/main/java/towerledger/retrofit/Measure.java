package towerledger.retrofit;

import java.util.Arrays;
import java.util.Optional;

/** What may be built in. */
public enum Measure {
  /** Probes or ultrasound in place of a float: stops losses of the fill valve and the level. */
  LEVEL_CONTROL("level-control"),
  /** A regulator before the fill valve: stops what the valve leaks by above its limit. */
  REGULATOR("regulator"),
  /** Submeters on makeup and bleed: brings the sewer credit that is not claimed today. */
  SUBMETERS("submeters"),
  /** More cycles, where the water treater agrees: less bleed. */
  CYCLES("cycles");

  private final String code;

  Measure(String code) {
    this.code = code;
  }

  /** The word used in addresses and texts. */
  public String code() {
    return code;
  }

  /** The measure of a code. */
  public static Optional<Measure> find(String code) {
    return Arrays.stream(values()).filter(measure -> measure.code.equals(code)).findFirst();
  }
}
