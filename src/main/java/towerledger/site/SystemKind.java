package towerledger.site;

import jakarta.persistence.Converter;

/** How a system gives its heat to the air. */
public enum SystemKind implements Coded {
  /** Water meets air on the fill. */
  OPEN("open"),
  /** Process water stays in a coil wetted by spray water. */
  CLOSED_CIRCUIT("closed-circuit"),
  /** Refrigerant condenses in a coil wetted by spray water. */
  EVAPORATIVE_CONDENSER("evaporative-condenser"),
  /** Wet and dry sections; the dry one evaporates nothing. */
  HYBRID("hybrid");

  private final String code;

  SystemKind(String code) {
    this.code = code;
  }

  @Override
  public String code() {
    return code;
  }

  /** Stores the code. */
  @Converter(autoApply = true)
  static class Stored extends CodedConverter<SystemKind> {
    Stored() {
      super(SystemKind.class);
    }
  }
}
