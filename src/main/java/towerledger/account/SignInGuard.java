package towerledger.account;

import java.time.Duration;
import java.util.ArrayList;
import java.util.List;
import org.jspecify.annotations.Nullable;
import org.springframework.stereotype.Component;

/**
 * Bounds the guessing of passwords without letting a guesser shut anybody out.
 *
 * <p>Guesses are counted before the password is looked at, so that a thousand at once are not a
 * thousand tries. A browser that has signed in to a login before has a count of its own there, and
 * neither the counts of its address nor those of the login hold it up.
 */
@Component
class SignInGuard {

  private final Allowances perLoginAndPlace;
  private final Allowances perAddress;
  private final Allowances perLogin;
  private final Allowances lettersPerLogin = new Allowances(3, Duration.ofHours(1));
  private final Allowances lettersPerAddress = new Allowances(20, Duration.ofHours(1));

  SignInGuard(Limits limits) {
    Duration time = Duration.ofMinutes(limits.guessMinutes());
    this.perLoginAndPlace = new Allowances(limits.guessesPerLoginAndAddress(), time);
    this.perAddress = new Allowances(limits.guessesPerAddress(), time);
    this.perLogin = new Allowances(limits.guessesPerLogin(), time);
  }

  /** What an attempt has taken, to be given back when the password was right. */
  static final class Pass {

    private final List<Runnable> returns = new ArrayList<>();

    /** The password was right: the attempt does not count. */
    void cancel() {
      returns.forEach(Runnable::run);
    }

    private void take(Allowances allowances, String key) {
      long wait = allowances.take(key);
      if (wait > 0) {
        cancel();
        throw new TooManyAttempts(wait);
      }
      returns.add(() -> allowances.giveBack(key));
    }
  }

  /**
   * Lets an attempt through to the password.
   *
   * @param login e-mail as typed, shortened; need not exist
   * @param knownDevice hash of the device the person has signed in from before, or null
   * @throws TooManyAttempts if too many went before
   */
  Pass enter(String login, String address, @Nullable String knownDevice) {
    Pass pass = new Pass();
    if (knownDevice != null) {
      pass.take(perLoginAndPlace, login + " device " + knownDevice);
    } else {
      pass.take(perLoginAndPlace, login + " address " + address);
      pass.take(perAddress, address);
      pass.take(perLogin, login);
    }
    return pass;
  }

  /** Whether one more letter may be asked for, for a login and from an address. */
  boolean mayAskForLetter(String login, String address) {
    return lettersPerAddress.take(address) == 0 && lettersPerLogin.take(login) == 0;
  }
}
