package towerledger.account;

import java.time.Clock;
import java.util.Optional;
import org.springframework.security.authentication.AuthenticationProvider;
import org.springframework.security.authentication.BadCredentialsException;
import org.springframework.security.authentication.UsernamePasswordAuthenticationToken;
import org.springframework.security.core.Authentication;
import org.springframework.stereotype.Component;
import org.springframework.transaction.support.TransactionTemplate;

/**
 * Recognises a person by e-mail and password, for the sign-in form and for HTTP Basic alike.
 *
 * <p>Every refusal reads the same and takes the same time, whether the person is unknown, removed,
 * not yet invited to the end or gave the wrong password.
 */
@Component
class PasswordSignIn implements AuthenticationProvider {

  private static final int LONGEST_LOGIN = 254;

  private final PersonRows people;
  private final Passwords passwords;
  private final SignInGuard guard;
  private final Devices devices;
  private final ChangeHistory history;
  private final TransactionTemplate transaction;
  private final Clock clock;

  PasswordSignIn(
      PersonRows people,
      Passwords passwords,
      SignInGuard guard,
      Devices devices,
      ChangeHistory history,
      TransactionTemplate transaction,
      Clock clock) {
    this.people = people;
    this.passwords = passwords;
    this.guard = guard;
    this.devices = devices;
    this.history = history;
    this.transaction = transaction;
    this.clock = clock;
  }

  @Override
  public boolean supports(Class<?> authentication) {
    return UsernamePasswordAuthenticationToken.class.isAssignableFrom(authentication);
  }

  @Override
  public Authentication authenticate(Authentication presented) {
    String password = String.valueOf(presented.getCredentials());
    if (Passwords.isTooLong(password)) {
      throw new BadCredentialsException("e-mail or password is wrong");
    }
    SignInAttempt attempt =
        presented.getDetails() instanceof SignInAttempt known
            ? known
            : new SignInAttempt("unknown address", null);
    Optional<Person> person =
        EmailAddress.find(presented.getName())
            .flatMap(email -> people.findByEmail(email.value()))
            .filter(Person::enabled);
    String device = person.map(p -> devices.known(p.id(), attempt.device())).orElse(null);
    SignInGuard.Pass pass = guard.enter(login(presented.getName()), attempt.address(), device);
    String hash = person.map(Person::passwordHash).orElse(null);
    boolean right =
        hash == null ? passwords.matchesNobody(password) : passwords.matches(password, hash);
    if (!right) {
      throw new BadCredentialsException("e-mail or password is wrong");
    }
    pass.cancel();
    return signedIn(person.orElseThrow().id(), password, attempt.address());
  }

  /** What guesses are counted under: the address that would be found, whether there is one. */
  private static String login(String typed) {
    return EmailAddress.find(typed)
        .map(EmailAddress::value)
        .orElseGet(() -> typed.substring(0, Math.min(typed.length(), LONGEST_LOGIN)));
  }

  private Authentication signedIn(long personId, String password, String address) {
    return transaction.execute(
        status -> {
          Person person = people.findById(personId).orElseThrow();
          String hash = person.passwordHash();
          if (hash != null && passwords.needsRehash(hash)) {
            person.rehash(passwords.hash(password));
          }
          person.signedIn(clock.instant());
          history.record(
              new Actor(person.email(), address),
              "signed-in",
              "person",
              person.email(),
              person.customerId().orElse(null),
              null,
              null);
          return ViewerAuthentication.of(person);
        });
  }
}
