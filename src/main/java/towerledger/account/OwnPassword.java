package towerledger.account;

import java.util.Optional;
import org.springframework.stereotype.Service;
import org.springframework.transaction.annotation.Transactional;

/** Lets a signed-in person choose a new password for themselves. */
@Service
public class OwnPassword {

  private final PersonRows people;
  private final Passwords passwords;
  private final PasswordRules rules;
  private final ChangeHistory history;

  OwnPassword(PersonRows people, Passwords passwords, PasswordRules rules, ChangeHistory history) {
    this.people = people;
    this.passwords = passwords;
    this.rules = rules;
    this.history = history;
  }

  /**
   * Takes a new password; every session of the person ends, the asking one too.
   *
   * @param current the password they signed in with
   * @param password the new one
   * @param again the new one a second time, as typed
   * @return why the new one is refused; empty if it was taken
   * @throws WrongPasswordException if the current one is wrong
   * @throws TooManyAttempts if too many passwords are being checked at this moment
   */
  @Transactional
  public Optional<PasswordFault> change(
      Viewer viewer, String current, String password, String again, Actor actor) {
    Person person = people.findById(viewer.personId()).orElseThrow();
    String hash = person.passwordHash();
    if (hash == null || !passwords.matches(current, hash)) {
      throw new WrongPasswordException();
    }
    Optional<PasswordFault> fault = fault(person, current, password, again);
    if (fault.isEmpty()) {
      person.takePassword(passwords.hash(password), false);
      history.record(
          actor,
          "chose-password",
          "person",
          person.email(),
          person.customerId().orElse(null),
          null,
          null);
    }
    return fault;
  }

  private Optional<PasswordFault> fault(
      Person person, String current, String password, String again) {
    if (!password.equals(again)) {
      return Optional.of(PasswordFault.DIFFERS);
    }
    if (Passwords.normal(password).equals(Passwords.normal(current))) {
      return Optional.of(PasswordFault.SAME);
    }
    return rules.check(password, person.email(), person.name());
  }
}
