package towerledger.site;

/** A row names a thing that is not there. */
public class UnknownCodeException extends RuntimeException {

  private final String kind;
  private final String code;

  /**
   * A thing that is not there.
   *
   * @param kind what was looked for: site, system, meter …
   * @param code the code it was looked for under
   */
  public UnknownCodeException(String kind, String code) {
    super("%s '%s' is not known; add it first or correct the code".formatted(kind, code));
    this.kind = kind;
    this.code = code;
  }

  public String kind() {
    return kind;
  }

  public String code() {
    return code;
  }
}
