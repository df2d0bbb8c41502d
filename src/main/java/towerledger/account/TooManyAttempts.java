package towerledger.account;

import java.io.Serial;
import org.springframework.security.core.AuthenticationException;

/** Sign-in is refused without looking at the password, because too many went before. */
public final class TooManyAttempts extends AuthenticationException {

  @Serial private static final long serialVersionUID = 1L;

  private final long retryAfterS;

  TooManyAttempts(long retryAfterS) {
    super("too many sign-in attempts; try again in %d s".formatted(retryAfterS));
    this.retryAfterS = retryAfterS;
  }

  /** Seconds until another attempt may be made. */
  public long retryAfterS() {
    return retryAfterS;
  }
}
