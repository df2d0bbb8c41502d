package towerledger.site;

import jakarta.persistence.Converter;

/** What tells the fill valve to open. */
public enum LevelControl implements Coded {
  MECHANICAL_FLOAT("mechanical-float"),
  FLOAT_SWITCH("float-switch"),
  CONDUCTANCE_PROBES("conductance-probes"),
  ULTRASONIC("ultrasonic"),
  PRESSURE_TRANSDUCER("pressure-transducer"),
  MANUAL("manual"),
  OTHER("other");

  private final String code;

  LevelControl(String code) {
    this.code = code;
  }

  @Override
  public String code() {
    return code;
  }

  /** Stores the code. */
  @Converter(autoApply = true)
  static class Stored extends CodedConverter<LevelControl> {
    Stored() {
      super(LevelControl.class);
    }
  }
}
