package towerledger.site;

import jakarta.persistence.Converter;

/** Where the heat of a system comes from. */
public enum HeatSource implements Coded {
  ELECTRIC_CHILLER("electric-chiller"),
  ABSORPTION_CHILLER("absorption-chiller"),
  PROCESS("process"),
  HEAT_PUMP_LOOP("heat-pump-loop"),
  REFRIGERATION("refrigeration"),
  OTHER("other");

  private final String code;

  HeatSource(String code) {
    this.code = code;
  }

  @Override
  public String code() {
    return code;
  }

  /** Stores the code. */
  @Converter(autoApply = true)
  static class Stored extends CodedConverter<HeatSource> {
    Stored() {
      super(HeatSource.class);
    }
  }
}
