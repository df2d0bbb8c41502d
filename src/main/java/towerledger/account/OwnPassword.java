package towerledger.account;

import java.util.Optional;
import org.springframework.stereotype.Service;
import org.springframework.transaction.support.TransactionTemplate;

/**
 * Lets people choose a password for themselves: signed in, or by a link from a letter.
 *
 * <p>Hashing takes its turn outside any transaction, so that a queue of it holds no connection.
 */
@Service
public class OwnPassword {

  private final PersonRows people;
  private final Passwords passwords;
  private final PasswordRules rules;
  private final SignInGuard guard;
  private final Devices devices;
  private final Links links;
  private final Letters letters;
  private final ChangeHistory history;
  private final TransactionTemplate transaction;

  OwnPassword(
      PersonRows people,
      Passwords passwords,
      PasswordRules rules,
      SignInGuard guard,
      Devices devices,
      Links links,
      Letters letters,
      ChangeHistory history,
      TransactionTemplate transaction) {
    this.people = people;
    this.passwords = passwords;
    this.rules = rules;
    this.guard = guard;
    this.devices = devices;
    this.links = links;
    this.letters = letters;
    this.history = history;
    this.transaction = transaction;
  }

  /**
   * Takes a new password; every session of the person ends, the asking one too.
   *
   * @param current the password they signed in with
   * @param password the new one
   * @param again the new one a second time, as typed
   * @param attempt where it comes from: guesses of the current one are bounded as at sign-in
   * @return why the new one is refused; empty if it was taken
   * @throws WrongPasswordException if the current one is wrong
   * @throws TooManyAttempts if it was wrong too often, or too many are being checked at this moment
   */
  public Optional<PasswordFault> change(
      Viewer viewer,
      String current,
      String password,
      String again,
      SignInAttempt attempt,
      Actor actor) {
    Person person = people.findById(viewer.personId()).orElseThrow();
    SignInGuard.Pass pass =
        guard.enter(
            person.email(), attempt.address(), devices.known(person.id(), attempt.device()));
    String hash = person.passwordHash();
    if (hash == null || !passwords.matches(current, hash)) {
      throw new WrongPasswordException();
    }
    pass.cancel();
    Optional<PasswordFault> fault =
        Passwords.normal(password).equals(Passwords.normal(current)) && password.equals(again)
            ? Optional.of(PasswordFault.SAME)
            : fault(password, again, person.email(), person.name());
    if (fault.isEmpty()) {
      String chosen = passwords.hash(password);
      transaction.executeWithoutResult(status -> take(person.id(), chosen, actor));
    }
    return fault;
  }

  /**
   * Sends a link for a new password, if there is such a person. The caller cannot tell: the answer
   * is the same and as quick, the letter is written later.
   *
   * @param typedEmail as typed; need not be an e-mail
   * @param address network address of whoever asks
   */
  public void forgot(String typedEmail, String address) {
    EmailAddress.find(typedEmail)
        .filter(email -> guard.mayAskForLetter(email.value(), address))
        .ifPresent(
            email ->
                transaction.executeWithoutResult(
                    status ->
                        people
                            .findByEmail(email.value())
                            .filter(Person::enabled)
                            .ifPresent(person -> sendLink(person, address))));
  }

  private void sendLink(Person person, String address) {
    record(new Actor(person.email(), address), "asked-for-password", person);
    if (letters.canSend()) {
      letters.queue(
          person.id(), person.hasPassword() ? Link.Purpose.RESET : Link.Purpose.INVITATION);
    }
  }

  /** Whose link this is; empty if it is unknown, used or past its end. */
  public Optional<Link> findLink(String secret) {
    return links.find(secret);
  }

  /**
   * Takes the password somebody chose by a link, which is used up.
   *
   * @return why the password is refused; empty if it was taken
   * @throws AccountException if the link is no longer good
   * @throws TooManyAttempts if too many passwords are being hashed at this moment
   */
  public Optional<PasswordFault> chooseByLink(
      String secret, String password, String again, String address) {
    Link link =
        links.find(secret).orElseThrow(() -> new AccountException("this link is used or over"));
    Optional<PasswordFault> fault = fault(password, again, link.email(), link.name());
    if (fault.isPresent()) {
      return fault;
    }
    String chosen = passwords.hash(password);
    transaction.executeWithoutResult(
        status -> {
          if (!links.use(secret)) {
            throw new AccountException("this link is used or over");
          }
          take(link.personId(), chosen, new Actor(link.email(), address));
        });
    return Optional.empty();
  }

  private Optional<PasswordFault> fault(String password, String again, String email, String name) {
    return password.equals(again)
        ? rules.check(password, email, name)
        : Optional.of(PasswordFault.DIFFERS);
  }

  private void take(long personId, String hash, Actor actor) {
    Person person = people.findById(personId).orElseThrow();
    boolean hadOne = person.hasPassword();
    person.takePassword(hash, false);
    links.endAll(personId);
    devices.forget(personId);
    record(actor, "chose-password", person);
    if (hadOne) {
      letters.queueChanged(personId);
    }
  }

  private void record(Actor actor, String action, Person person) {
    history.record(
        actor, action, "person", person.email(), person.customerId().orElse(null), null, null);
  }
}
