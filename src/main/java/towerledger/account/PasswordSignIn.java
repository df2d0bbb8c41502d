package towerledger.account;

import java.time.Clock;
import java.util.Optional;
import org.springframework.security.authentication.AuthenticationProvider;
import org.springframework.security.authentication.BadCredentialsException;
import org.springframework.security.authentication.UsernamePasswordAuthenticationToken;
import org.springframework.security.core.Authentication;
import org.springframework.security.web.authentication.WebAuthenticationDetails;
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

  private final PersonRows people;
  private final Passwords passwords;
  private final ChangeHistory history;
  private final TransactionTemplate transaction;
  private final Clock clock;

  PasswordSignIn(
      PersonRows people,
      Passwords passwords,
      ChangeHistory history,
      TransactionTemplate transaction,
      Clock clock) {
    this.people = people;
    this.passwords = passwords;
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
    Optional<Person> person =
        EmailAddress.find(presented.getName())
            .flatMap(email -> people.findByEmail(email.value()))
            .filter(Person::enabled);
    String hash = person.map(Person::passwordHash).orElse(null);
    boolean right =
        hash == null ? passwords.matchesNobody(password) : passwords.matches(password, hash);
    if (!right) {
      throw new BadCredentialsException("e-mail or password is wrong");
    }
    return signedIn(person.orElseThrow().id(), password, address(presented));
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

  private static String address(Authentication presented) {
    return presented.getDetails() instanceof WebAuthenticationDetails web
        ? web.getRemoteAddress()
        : "unknown address";
  }
}
