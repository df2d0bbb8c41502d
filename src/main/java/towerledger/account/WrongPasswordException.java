package towerledger.account;

/** The current password, asked for before something grave, is wrong. */
public class WrongPasswordException extends AccountException {

  private static final long serialVersionUID = 1L;

  WrongPasswordException() {
    super("the current password is wrong");
  }
}
