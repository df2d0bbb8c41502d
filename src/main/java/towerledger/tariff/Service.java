package towerledger.tariff;

/** What a utility bills for: water delivered or water taken away. */
public enum Service {
  WATER("water"),
  SEWER("sewer");

  private final String code;

  Service(String code) {
    this.code = code;
  }

  /** Code in import files. */
  public String code() {
    return code;
  }

  /**
   * The service with a code, case ignored.
   *
   * @throws IllegalArgumentException naming the codes that exist
   */
  public static Service ofCode(String code) {
    for (Service service : values()) {
      if (service.code.equalsIgnoreCase(code.strip())) {
        return service;
      }
    }
    throw new IllegalArgumentException(
        "service '%s' is not known; use water or sewer".formatted(code));
  }
}
