package towerledger.site;

import jakarta.persistence.Converter;

/** How air crosses the falling water. */
public enum FlowArrangement implements Coded {
  COUNTERFLOW("counterflow"),
  CROSSFLOW("crossflow");

  private final String code;

  FlowArrangement(String code) {
    this.code = code;
  }

  @Override
  public String code() {
    return code;
  }

  /** Stores the code. */
  @Converter(autoApply = true)
  static class Stored extends CodedConverter<FlowArrangement> {
    Stored() {
      super(FlowArrangement.class);
    }
  }
}
