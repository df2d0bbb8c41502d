package towerledger.site;

import jakarta.persistence.Converter;

/** What opens the blowdown valve; decides what a basin loss costs. */
public enum BlowdownControl implements Coded {
  /** A controller holds basin conductivity at its set-point. */
  CONDUCTIVITY("conductivity"),
  /** Bleeds a fixed share of the metered makeup. */
  MAKEUP_PROPORTIONAL("makeup-proportional"),
  TIMER("timer"),
  MANUAL("manual"),
  NONE("none");

  private final String code;

  BlowdownControl(String code) {
    this.code = code;
  }

  @Override
  public String code() {
    return code;
  }

  /** Stores the code. */
  @Converter(autoApply = true)
  static class Stored extends CodedConverter<BlowdownControl> {
    Stored() {
      super(BlowdownControl.class);
    }
  }
}
