package towerledger.site;

import jakarta.persistence.Converter;

/** What the building behind a system is used for; it shapes the load over the week. */
public enum BuildingUse implements Coded {
  OFFICE("office"),
  HOSPITAL("hospital"),
  HOTEL("hotel"),
  SCHOOL("school"),
  LABORATORY("laboratory"),
  RETAIL("retail"),
  DATA_CENTER("data-center"),
  INDUSTRIAL("industrial"),
  OTHER("other");

  private final String code;

  BuildingUse(String code) {
    this.code = code;
  }

  @Override
  public String code() {
    return code;
  }

  /** Stores the code. */
  @Converter(autoApply = true)
  static class Stored extends CodedConverter<BuildingUse> {
    Stored() {
      super(BuildingUse.class);
    }
  }
}
