package towerledger.site;

import jakarta.persistence.Converter;

/** How a water meter measures; decides its accuracy class and its blindness at low flow. */
public enum MeterType implements Coded {
  DISPLACEMENT("displacement"),
  TURBINE("turbine"),
  COMPOUND("compound"),
  MAGNETIC("magnetic"),
  ULTRASONIC("ultrasonic");

  private final String code;

  MeterType(String code) {
    this.code = code;
  }

  @Override
  public String code() {
    return code;
  }

  /** Stores the code. */
  @Converter(autoApply = true)
  static class Stored extends CodedConverter<MeterType> {
    Stored() {
      super(MeterType.class);
    }
  }
}
