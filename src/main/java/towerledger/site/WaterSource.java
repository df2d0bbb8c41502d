package towerledger.site;

import jakarta.persistence.Converter;

/** Where makeup water comes from. */
public enum WaterSource implements Coded {
  CITY("city"),
  WELL("well"),
  RECLAIMED("reclaimed"),
  RAIN("rain"),
  SOFTENED("softened");

  private final String code;

  WaterSource(String code) {
    this.code = code;
  }

  @Override
  public String code() {
    return code;
  }

  /** Stores the code. */
  @Converter(autoApply = true)
  static class Stored extends CodedConverter<WaterSource> {
    Stored() {
      super(WaterSource.class);
    }
  }
}
