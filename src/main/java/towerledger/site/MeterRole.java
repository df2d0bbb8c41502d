package towerledger.site;

import jakarta.persistence.Converter;

/** What a water meter measures for the ledger. */
public enum MeterRole implements Coded {
  /** Water that enters the system. */
  MAKEUP("makeup"),
  /** Water bled from the basin. */
  BLOWDOWN("blowdown"),
  /** Water that passed its parent makeup meter and never reached the basin. */
  OTHER_USE("other-use"),
  /** A meter the utility reads for the sewer credit. */
  CREDIT("credit"),
  /** The site's own service from the utility. */
  SERVICE("service");

  private final String code;

  MeterRole(String code) {
    this.code = code;
  }

  @Override
  public String code() {
    return code;
  }

  /** Stores the code. */
  @Converter(autoApply = true)
  static class Stored extends CodedConverter<MeterRole> {
    Stored() {
      super(MeterRole.class);
    }
  }
}
