package towerledger.balance;

import java.util.Arrays;

/** Why a month's water does not add up, or that it does. */
public enum Cause {
  NONE("none", false),
  FILL_VALVE_LEAKING_BY("fill-valve-leaking-by", true),
  FILL_VALVE_STUCK_OPEN("fill-valve-stuck-open", true),
  OVERFLOW_ON_SHUTDOWN("overflow-on-shutdown", true),
  LEVEL_SET_HIGH("level-set-high", true),
  BLOWDOWN_STUCK_OPEN("blowdown-stuck-open", true),
  LOW_CYCLES("low-cycles", true),
  MAKEUP_LINE_LEAK("makeup-line-leak", true),
  BASIN_LEAK("basin-leak", true),
  DRIFT_EXCESS("drift-excess", true),
  OTHER_USE("other-use", true),
  MAKEUP_METER_ERROR("makeup-meter-error", false),
  BLOWDOWN_METER_ERROR("blowdown-meter-error", false),
  CONDUCTIVITY_ERROR("conductivity-error", false),
  HEAT_LOAD_ERROR("heat-load-error", false),
  FILL_VALVE_SHUT("fill-valve-shut", false),
  MISSING_DATA("missing-data", false);

  private final String code;
  private final boolean wastesWater;

  Cause(String code, boolean wastesWater) {
    this.code = code;
    this.wastesWater = wastesWater;
  }

  /** The code used in files and over the API. */
  public String code() {
    return code;
  }

  /** Whether water is lost, rather than wrongly measured or modelled. */
  public boolean wastesWater() {
    return wastesWater;
  }

  /**
   * The cause of a code.
   *
   * @throws IllegalArgumentException when there is no such code
   */
  public static Cause ofCode(String code) {
    return Arrays.stream(values())
        .filter(c -> c.code.equals(code))
        .findFirst()
        .orElseThrow(
            () ->
                new IllegalArgumentException(
                    "cause '%s' is not known; use one of %s"
                        .formatted(code, Arrays.stream(values()).map(Cause::code).toList())));
  }
}
