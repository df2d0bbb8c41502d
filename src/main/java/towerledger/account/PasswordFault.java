package towerledger.account;

/** Why a new password is refused. The page says it in words. */
public enum PasswordFault {
  /** Fewer than 15 characters. */
  TOO_SHORT,
  /** More than 256 characters. */
  TOO_LONG,
  /** One that guessers try first, or made of such pieces alone. */
  COMMON,
  /** Made of the person's own e-mail or name, or of the name of this service. */
  OWN_NAME,
  /** The two entries differ. */
  DIFFERS,
  /** The one that is to be replaced. */
  SAME
}
