package towerledger.account;

/** A refusal in words for the person who asked: what is wrong and how to mend it. */
public class AccountException extends RuntimeException {

  private static final long serialVersionUID = 1L;

  private final String about;

  public AccountException(String message) {
    this("", message);
  }

  /** A refusal of one thing that was told. */
  AccountException(String about, String message) {
    super(message);
    this.about = about;
  }

  /**
   * What of the things told is refused: {@code email}, {@code name}, {@code customer} or {@code
   * days}; empty where it is none of them alone.
   */
  public String about() {
    return about;
  }
}
