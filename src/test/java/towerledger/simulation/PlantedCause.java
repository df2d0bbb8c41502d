package towerledger.simulation;

/** Faults that can be planted; codes as in the interchange formats. */
public enum PlantedCause {
  FILL_VALVE_LEAKING_BY("fill-valve-leaking-by"),
  FILL_VALVE_STUCK_OPEN("fill-valve-stuck-open"),
  OVERFLOW_ON_SHUTDOWN("overflow-on-shutdown"),
  LEVEL_SET_HIGH("level-set-high"),
  BLOWDOWN_STUCK_OPEN("blowdown-stuck-open"),
  LOW_CYCLES("low-cycles"),
  MAKEUP_LINE_LEAK("makeup-line-leak"),
  BASIN_LEAK("basin-leak"),
  DRIFT_EXCESS("drift-excess"),
  OTHER_USE("other-use"),
  MAKEUP_METER_ERROR("makeup-meter-error"),
  BLOWDOWN_METER_ERROR("blowdown-meter-error"),
  CONDUCTIVITY_ERROR("conductivity-error"),
  HEAT_LOAD_ERROR("heat-load-error"),
  FILL_VALVE_SHUT("fill-valve-shut"),
  MISSING_DATA("missing-data");

  private final String code;

  PlantedCause(String code) {
    this.code = code;
  }

  public String code() {
    return code;
  }
}
