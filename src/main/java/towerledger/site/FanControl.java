package towerledger.site;

import jakarta.persistence.Converter;

/** How the fan follows the load. */
public enum FanControl implements Coded {
  SINGLE_SPEED("single-speed"),
  TWO_SPEED("two-speed"),
  VARIABLE_SPEED("variable-speed");

  private final String code;

  FanControl(String code) {
    this.code = code;
  }

  @Override
  public String code() {
    return code;
  }

  /** Stores the code. */
  @Converter(autoApply = true)
  static class Stored extends CodedConverter<FanControl> {
    Stored() {
      super(FanControl.class);
    }
  }
}
