package towerledger.account;

/** A refusal in words for the person who asked: what is wrong and how to mend it. */
public class AccountException extends RuntimeException {

  private static final long serialVersionUID = 1L;

  public AccountException(String message) {
    super(message);
  }
}
