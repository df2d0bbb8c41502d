package towerledger.api;

/**
 * Nothing of that code is there for this viewer: it does not exist, or it is somebody else's. The
 * answer is the same for both.
 */
class NotThereException extends RuntimeException {

  private static final long serialVersionUID = 1L;

  /**
   * The answer for a code.
   *
   * @param kind what was asked for: {@code system}, {@code job} …
   * @param code the code as asked for
   */
  NotThereException(String kind, String code) {
    super("There is no %s '%s'.".formatted(kind, code.length() <= 80 ? code : "…"));
  }
}
